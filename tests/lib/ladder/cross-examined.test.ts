import { describe, expect, it } from 'vitest';
import type { LimbOnSheet } from '@/lib/doubts/limb-on-sheet';
import { sheetDoubts } from '@/lib/doubts/sheet-doubts';
import { crossExamined } from '@/lib/ladder/cross-examined';
import type { Ladder } from '@/lib/ladder/ladder';
import type { LengthUnit, TypedLength } from '@/lib/units/length';
import { readLength } from '@/lib/units/read-length';

const TODAY = { day: 0, body: { heightMm: undefined, weightKg: undefined }, tape: { readingMm: 3, placementMm: 5 } };

function length(text: string, unit: LengthUnit): TypedLength {
  const reading = readLength(text, unit);
  if (reading.kind !== 'read') throw new Error(reading.reason);
  return reading.value;
}

/** A leg every 1½ in upward from the ankle crease. */
function leg(girths: readonly string[], side: 'right' | 'left' = 'right', kept: Readonly<Record<number, string>> = {}): Ladder {
  const rungs = girths.map((girth, index) => ({
    distance: length(String((index + 1) * 1.5), 'in'),
    girth: length(girth, 'in'),
    ...(kept[index] ? { kept: [{ kind: kept[index], by: 'R. Adeyemi', at: '2026-10-14T13:31:00.000Z' }] } : {}),
  }));
  return { limb: 'leg', side, zero: 'ankle-crease', direction: 'up', unit: 'in', rungs, landmarks: [], floorToFold: null };
}

const onSheet = (ladder: Ladder): LimbOnSheet => ({
  ladder,
  rowsMm: ladder.rungs.map((rung) => rung.distance.nm / 1e6),
  affected: false,
  last: undefined,
});
const asked = (...ladders: readonly Ladder[]) => sheetDoubts(ladders.map(onSheet), TODAY);
const inches = (mm: number) => Number((mm / 25.4).toFixed(6));
const offers = (ladder: Ladder) =>
  asked(ladder).map(({ doubt }) => [inches(doubt.distanceMm ?? 0), doubt.wouldFitMm === undefined ? null : inches(doubt.wouldFitMm)]);

const LEG = ['8 1/8', '8 3/8', '8 7/8', '9 1/4', '10 1/2', '11 3/8', '12 1/8', '12 5/8'];

describe('an unanswered question', () => {
  it('is no neighbour of the next: 92.5 after a doubtful 17⅜ is 9¼, not 12½', () => {
    const odd = offers(leg(['8 1/8', '8 3/8', '92.5', '17 3/8']));
    expect(odd.map(([place]) => place)).toEqual([4.5, 6]);
    expect(odd[0]?.[1]).toBe(9.25);
    for (const girths of [
      ['8 1/8', '8 3/8', '17 3/8', '92.5'],
      ['17 3/8', '92.5', '8 7/8', '9 5/8', '10 1/2'],
    ]) {
      const found = offers(leg(girths)).map(([, offer]) => offer);
      expect(found).toContain(9.25);
      expect(found).not.toContain(12.5);
    }
  });

  it('with nothing but doubtful figures beside it, no offer is made', () => {
    expect(offers(leg(['8 1/8', '92.5', '17 3/8'])).map(([, offer]) => offer)).toEqual([null, null]);
    expect(offers(leg(['8 1/8', '8 3/8', '17 3/8', '92.5', '10 1/2'])).map(([place]) => place)).toEqual([4.5, 6]);
  });

  it('does not make its good neighbours look odd, and names a good one as the rung before', () => {
    const spoiled = leg([...LEG.slice(0, 3), '92.5', ...LEG.slice(4, 6), '21 1/8', '12 5/8']);
    const doubts = asked(spoiled);
    expect(doubts.map(({ doubt }) => (doubt.distanceMm ?? 0) / 38.1).map(Math.round)).toEqual([4, 7]);
    expect(doubts.map(({ doubt }) => doubt.message).join(' ')).not.toContain('before it is 92');
    expect(doubts.map(({ doubt }) => inches(doubt.wouldFitMm ?? 0))).toEqual([9.25, 12.125]);
  });

  it('on one limb is no measure for the other', () => {
    const right = leg([...LEG.slice(0, 4), '15 1/2', ...LEG.slice(5)]);
    const left = asked(right, leg(LEG, 'left')).filter(({ side }) => side === 'left');
    expect(left.filter(({ doubt }) => doubt.distanceMm !== null)).toEqual([]);
  });

  it('makes no offer where most of a ladder is in doubt', () => {
    const doubts = crossExamined(leg(LEG.slice(0, 4)), (one) =>
      one.rungs
        .filter((rung) => rung.distance.nm < 4 * 38_100_000)
        .map((rung) => ({ kind: 'tens-digit', distanceMm: rung.distance.nm / 1e6, message: 'A: 8 or 18? Why.', wouldFitMm: 457.2 })),
    );
    expect(doubts).toHaveLength(3);
    for (const doubt of doubts) {
      expect(doubt.wouldFitMm).toBeUndefined();
      expect(doubt.message).toMatch(/^A: 8\? /);
    }
  });

  it('leaves the place of a doubtful top rung out of the floor check', () => {
    const fold = (ladder: Ladder): Ladder => ({ ...ladder, floorToFold: length('13', 'in') });
    const kinds = (ladder: Ladder) => asked(fold(ladder)).map(({ doubt }) => doubt.kind);
    expect(kinds(leg(LEG))).toContain('ladder-length');
    expect(kinds(leg([...LEG.slice(0, 7), '126']))).not.toContain('ladder-length');
  });

  it('answered with keep counts as measured and is not asked again', () => {
    const one = [...LEG.slice(0, 3), '19 1/4', ...LEG.slice(4)];
    expect(asked(leg(one)).map(({ doubt }) => doubt.kind)).toEqual(['tens-digit']);
    expect(asked(leg(one, 'right', { 3: 'tens-digit' }))).toEqual([]);
  });
});
