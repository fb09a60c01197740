import { describe, expect, it } from 'vitest';
import { addressWithoutNames, errorLine, requestLine } from '@/app/_server/log-line.mjs';

describe('a line of the log', () => {
  it.each([
    ['/patients?q=Oduya', '/patients'],
    ['/patients/3f9c1c1e-7a5b-4a0e-9d6f-0f8f1d2c3b4a/visits/new', '/patients/…/visits/new'],
    ['/share/Zk31vLq0aUo', '/share/…'],
    ['/calendar/abcDEF123#x', '/calendar/…'],
    ['/join/9f-8e', '/join/…'],
    ['/HL-0147', '/…'],
    ['/', '/'],
    [undefined, ''],
  ])('says of the address %s only %s', (url, said) => {
    expect(addressWithoutNames(url)).toBe(said);
  });

  it('says of an error its kind, number, code and place, never its words', () => {
    const cause = Object.assign(new Error('Key (reference)=(HL-0147) exists'), { code: '23505' });
    const error = Object.assign(new Error("Failed query: insert into visit values ('Mira Oduya', 21.5)", { cause }), { digest: '123456' });
    const line = errorLine({ id: 'r1', said: ['⨯', error], at: '2026-11-25T10:00:00.000Z' });
    expect(line).toMatchObject({ level: 'error', request: 'r1', name: 'Error', digest: '123456', code: '23505' });
    expect(JSON.stringify(line)).not.toMatch(/Oduya|21\.5|HL-0147|insert/);
    expect(line).toHaveProperty('thrown');
  });

  it('takes figures, quotes and addresses out of what the framework says', () => {
    const line = errorLine({ id: undefined, said: ['\u001b[31m⨯\u001b[39m lead@clinic.example sent "Mira Oduya" 21.5'], at: 'now' });
    expect(line).toEqual({ at: 'now', level: 'error', kind: 'error', text: '⨯ … sent … #.#' });
  });

  it('is of level error when the server failed', () => {
    const of = (status: number) => requestLine({ id: 'r', method: 'GET', url: '/', status, ms: 1.5, at: 'now' }).level;
    expect([of(200), of(404), of(500)]).toEqual(['info', 'info', 'error']);
  });
});
