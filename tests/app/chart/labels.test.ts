import { describe, expect, it } from 'vitest';
import { eventLabels } from '@/app/_chart/event-labels';
import { keepApart } from '@/app/_chart/keep-apart';
import { seeded } from '@/tests/cohort/random';

describe('labels along a line', () => {
  it('stay where they are when there is room, in the order they came in', () => {
    expect(keepApart([40, 10, 70], 14)).toEqual([40, 10, 70]);
  });

  it('give way equally, as worked by hand: 10 and 10 come to 3 and 17; 10, 12 and 40 leave the third alone', () => {
    expect(keepApart([10, 10], 14)).toEqual([3, 17]);
    expect(keepApart([10, 12, 40], 14)).toEqual([4, 18, 40]);
  });

  it('are never nearer than the gap and move no farther in sum of squares than any other spacing tried (1,000 made-up lines)', () => {
    const random = seeded(7);
    for (let trial = 0; trial < 1000; trial++) {
      const wanted = Array.from({ length: 2 + Math.floor(random.uniform() * 6) }, () => random.uniform() * 100);
      const placed = keepApart(wanted, 12);
      const sorted = [...placed].sort((one, other) => one - other);
      for (let at = 1; at < sorted.length; at++)
        expect((sorted[at] as number) - (sorted[at - 1] as number)).toBeGreaterThanOrEqual(12 - 0.02);
      const cost = (places: readonly number[]): number => places.reduce((sum, at, one) => sum + (at - (wanted[one] as number)) ** 2, 0);
      const order = wanted.map((_, index) => index).sort((one, other) => (wanted[one] as number) - (wanted[other] as number));
      const start = (wanted[order[0] as number] as number) - random.uniform() * 40;
      const other: number[] = [];
      let last = Number.NEGATIVE_INFINITY;
      for (const index of order) {
        last = Math.max(last + 12, Math.max(start, (wanted[index] as number) - random.uniform() * 20));
        other[index] = last;
      }
      expect(cost(placed)).toBeLessThanOrEqual(cost(other) + 0.5);
    }
  });
});

describe('the words of events', () => {
  it('of two events a few days apart stand in two rows', () => {
    const [first, second] = eventLabels(
      [
        { x: 100, words: 'release of the scar' },
        { x: 108, words: 'new dressing' },
      ],
      50,
      500,
    );
    expect(first?.row).toBe(1);
    expect(second?.row).toBe(0);
  });

  it('near the right end are written to the left', () => {
    expect(eventLabels([{ x: 480, words: 'release of the scar' }], 50, 500)[0]?.anchor).toBe('end');
  });

  it('that fit nowhere are cut, and say that they are', () => {
    const [label] = eventLabels([{ x: 275, words: 'a'.repeat(200) }], 50, 500);
    expect(label?.words.endsWith('…')).toBe(true);
    expect(label?.words.length).toBeLessThan(40);
  });
});
