import { describe, expect, it } from 'vitest';
import { returnPath } from '@/app/_auth/return-path';

describe('the place to go after signing in', () => {
  it.each(['/', '/patients', '/patients?q=hl&page=2', '/patients/1f/visits/new'])('%s is kept', (path) => {
    expect(returnPath(path)).toBe(path);
  });

  /** Spellings that browsers take for another host. Source: WHATWG URL Standard, `\` is read as `/` and tabs are dropped. */
  it.each([
    undefined,
    '',
    'patients',
    '//evil.example',
    '/\\evil.example',
    '\\\\evil.example',
    'https://evil.example',
    '/\t/evil.example',
    '/a\\..\\b',
    'javascript:alert(1)',
  ])('%j becomes the first screen', (path) => {
    expect(returnPath(path)).toBe('/');
  });
});
