import { describe, expect, it } from 'vitest';
import { dateInWords } from '@/lib/schedule/date-in-words';

const LIMB = { limb: 'leg', side: 'right' } as const;

describe('a date in words', () => {
  it.each([
    ['remeasure', 'Measure the right leg for the next order'],
    ['order', 'Order the next piece for the right leg'],
    ['delivery', 'Piece 4 is expected, right leg'],
    ['first-fit', 'First-fit check of piece 4, right leg'],
    ['call', 'Call about the wear-in of piece 4, right leg'],
    ['end-of-life', 'Replacement of piece 4 due, right leg'],
    ['visit', 'Next visit'],
    ['ask', 'Ask whether care goes on'],
    ['missed', 'Call about a missed visit'],
  ] as const)('%s: %s', (kind, words) => {
    expect(dateInWords({ kind, limb: LIMB, piece: '4' })).toBe(words);
  });
});
