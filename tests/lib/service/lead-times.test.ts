import { describe, expect, it } from 'vitest';
import { leadProposal } from '@/lib/service/lead-times';

describe('days of making that are proposed', () => {
  /** Closed form: of 1, 2, …, 20 the 18th smallest is 18 (⌈0.9 · 20⌉), the median 10.5. */
  it('are those by which nine in ten came, from twenty pieces on, with their number', () => {
    const days = (n: number) => Array.from({ length: n }, (_, at) => ({ days: at + 1, n: 1 }));
    expect(leadProposal(days(20))).toEqual({ days: 18, words: '20 pieces of this form: half came within 11 days, nine in ten within 18.' });
    expect(leadProposal(days(19))).toEqual({
      days: undefined,
      words: '19 pieces of this form came so far: too few to propose days (20 needed).',
    });
    expect(leadProposal([])).toEqual({ days: undefined, words: 'No delivery of this form is on record.' });
  });
});
