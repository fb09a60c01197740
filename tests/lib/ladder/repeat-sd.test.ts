import { describe, expect, it } from 'vitest';
import { repeatPairs, repeatSd } from '@/lib/ladder/repeat-sd';
import { cm, ladderOf } from '@/tests/lib/made-up-ladder';

/** A ladder in cm with these pairs of tapings, cm. */
function taped(pairs: readonly (readonly [number, number])[], kept?: string) {
  const one = ladderOf({ girths: pairs.map(([first], index): [number, number] => [4 * (index + 1), first]) });
  const keptAs = kept ? { kept: [{ kind: kept, by: 'R. Adeyemi', at: '2026-10-14T14:31:00.000Z' }] } : {};
  return { ...one, rungs: one.rungs.map((rung, index) => ({ ...rung, again: cm(pairs[index]?.[1] ?? 0), ...keptAs })) };
}

describe('the SD of one reading by repeat tapings', () => {
  it('is Dahlberg’s √(Σ d² / 2n), worked by hand: 110 mm² of ten pairs give 2.3 mm', () => {
    const apart = [1, -2, 3, -4, 5, -5, 4, -3, 2, -1];
    const found = repeatPairs(taped(apart.map((d, index) => [30 + index, Number((30 + index + d / 10).toFixed(1))])));
    expect(found.pairs).toBe(10);
    expect(found.squaresMm2).toBeCloseTo(110, 9);
    expect(repeatSd(found)).toBe(2.3);
  });

  it('agrees with a published example of pairs: repeatability 43.2 from 17 pairs (Bland and Altman 1986, Lancet 1:307, pairs from memory)', () => {
    const apart = [4, -2, 4, 33, 6, -54, -2, 11, 12, 4, -3, 23, -8, -14, 13, 51, 6];
    const squaresMm2 = apart.reduce((sum, d) => sum + d * d, 0);
    // Their coefficient is twice the SD of a difference, 2 × √2 × s; peak flow, l/min, but the formula knows no unit.
    expect(2 * Math.SQRT2 * (repeatSd({ pairs: apart.length, squaresMm2 }) ?? 0)).toBeCloseTo(43.2, 0);
  });

  it('ten pairs 4 mm apart: √8 = 2.83, shown to a tenth', () => {
    expect(repeatSd({ pairs: 10, squaresMm2: 160 })).toBe(2.8);
  });

  it('is not known from nine pairs, nor from rungs taped once', () => {
    expect(repeatSd({ pairs: 9, squaresMm2: 99 })).toBeUndefined();
    expect(repeatPairs(ladderOf({ girths: [[4, 30]] }))).toEqual({ pairs: 0, squaresMm2: 0 });
  });

  it('is never below the marks of the tape: 0.29 × 3.175 mm = 0.92 mm, rounded up to 1 (JCGM 100:2008, F.2.2.1)', () => {
    expect(repeatSd({ pairs: 40, squaresMm2: 0 })).toBe(1);
    expect(repeatSd({ pairs: 40, squaresMm2: 40 * 2 * 0.92 ** 2 })).toBe(1);
  });

  it('a pair a slip apart (45.3 for 35.4) counts only when somebody kept it', () => {
    const slip = [[35.4, 45.3]] as const;
    expect(repeatPairs(taped(slip))).toEqual({ pairs: 0, squaresMm2: 0 });
    expect(repeatPairs(taped(slip, 'neighbours')).pairs).toBe(0);
    expect(repeatPairs(taped(slip, 'taped-twice'))).toMatchObject({ pairs: 1, squaresMm2: expect.closeTo(99 * 99, 6) });
  });
});
