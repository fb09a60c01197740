import { describe, expect, it } from 'vitest';
import { LONGEST_REASON, reasonErrors } from '@/lib/forms/read-reason';

describe('the reason of a change', () => {
  it.each(Object.values(LONGEST_REASON))('may have %i characters and not one more', (most) => {
    expect(reasonErrors('a'.repeat(most), true, most)).toEqual({});
    expect(reasonErrors('a'.repeat(most + 1), true, most)).toEqual({ reason: `Too long: ${most} characters at most.` });
  });

  it('is asked for where there is something to change, and nowhere else', () => {
    expect(reasonErrors('  ', true, 200)).toEqual({ reason: 'Say in a few words why it is changed.' });
    expect(reasonErrors('', false, 200)).toEqual({});
  });
});
