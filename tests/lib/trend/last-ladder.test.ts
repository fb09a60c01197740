import { describe, expect, it } from 'vitest';
import { tapedRungs } from '@/lib/alignment/reference-line';
import { doubtsAgainst } from '@/lib/doubts/doubts-against';
import { lastVisitLine } from '@/lib/growth/expected-ladder';
import type { Ladder } from '@/lib/ladder/ladder';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { tapeSds } from '@/lib/limits/tape-sds';
import { ladderAsTaped, lastLadder } from '@/lib/trend/last-ladder';
import { limbSeries } from '@/lib/trend/limb-series';
import type { SeriesVisit } from '@/lib/trend/series-visit';
import { calendarDay, dayNumber } from '@/lib/units/calendar-day';
import { cm, recordOf, visitOf } from '../made-up-ladder';
import { LEG_CM, legOf } from '../prompts/made-up-piece';

const TAPE = tapeSds(DEFAULT_POLICY);
const body = { weight: '70 kg', height: '170 cm' };
const seriesOf = (...ladders: Ladder[]): readonly SeriesVisit[] => {
  const visits = ladders.map((ladder, index) => visitOf(`2026-0${index + 1}-05`, [ladder], body));
  return limbSeries(recordOf(visits), DEFAULT_POLICY)[0]?.visits ?? [];
};
/** The seventh rung, 36.5 cm at 28 cm. */
const SEVENTH = 6;
const widened = (byCm: number) => legOf(1, { at: (place) => (place === 28 ? byCm : 0) });

describe('a girth at zero itself', () => {
  it('is asked about once: who took one at the last visit is not asked again', () => {
    const atZero: Ladder = { ...legOf(), rungs: [{ distance: cm(0), girth: cm(24) }, ...legOf().rungs] };
    const joint = (visits: readonly SeriesVisit[]) => visits.map(({ doubts }) => doubts.some(({ kind }) => kind === 'girth-at-joint'));
    expect(joint(seriesOf(atZero, atZero, legOf(), atZero))).toEqual([true, false, false, true]);
    // A ladder down from the fold has its zero elsewhere: a girth there says nothing of the crease.
    const down: Ladder = { ...legOf(), zero: 'gluteal-fold', direction: 'down', landmarks: [], rungs: [...atZero.rungs] };
    expect(joint(seriesOf(down, atZero))).toEqual([false, true]);
  });
});

describe('one ladder as a reference', () => {
  it('has its girths at distances that fall where it was taped down, so that no other place of a ladder taped up is taken for the same', () => {
    const places = (ladder: Ladder) => ladderAsTaped(seriesOf(ladder)[0] as SeriesVisit).girthsNm.map(([place]) => place);
    const up = legOf();
    const down: Ladder = { ...up, zero: 'gluteal-fold', direction: 'down', landmarks: [] };
    expect(places(up)).toEqual(up.rungs.map(({ distance }) => distance.nm / 1e6));
    expect(places(down)).toEqual(up.rungs.map(({ distance }) => -distance.nm / 1e6));
  });
});

describe('what all earlier ladders say of the newest', () => {
  it('is the newest as taped where there is no other', () => {
    const visits = seriesOf(legOf());
    expect(lastLadder(visits, false, TAPE)).toEqual(ladderAsTaped(visits[0] as SeriesVisit));
  });

  it('takes a rung 6 mm too wide back by nearly two thirds beside two that agree: the mean of three readings', () => {
    const usual = lastLadder(seriesOf(legOf(), legOf(), widened(0.6)), false, TAPE)?.usual;
    // The mean of 36.5, 36.5 and 37.1 cm is 36.7; the fitted level of each earlier ladder rises by a fifteenth of the odd rung at most.
    expect(usual?.girthsMm[SEVENTH]).toBeGreaterThan(367);
    expect(usual?.girthsMm[SEVENTH]).toBeLessThan(367 + 2 * (6 / 15));
    expect(usual?.ladders).toEqual(LEG_CM.map(() => 3));
  });

  it('keeps the level of the newest: a limb 4 % thicker all along is expected 4 % thicker', () => {
    const usual = lastLadder(seriesOf(legOf(), legOf(), legOf(1.04)), false, TAPE)?.usual;
    LEG_CM.forEach((girth, rung) => {
      expect((usual?.girthsMm[rung] ?? 0) / (10.4 * girth)).toBeCloseTo(1, 2);
    });
  });

  it('takes nothing from an earlier rung that is itself a slip', () => {
    const usual = lastLadder(seriesOf(legOf(), widened(10), legOf()), false, TAPE)?.usual;
    expect(usual?.ladders[SEVENTH]).toBe(2);
    expect((usual?.girthsMm[SEVENTH] ?? 0) / 365).toBeCloseTo(1, 2);
  });

  it('narrows the range in which the next figure is expected', () => {
    const range = (visits: readonly SeriesVisit[]) => {
      const last = lastLadder(visits, false, TAPE);
      const ladder = widened(4);
      const day = { day: dayNumber(calendarDay('2026-06-05')), body: (visits[0] as SeriesVisit).body, tape: TAPE };
      const line = last && lastVisitLine(last, ladder, day, false);
      const { doubts } = line ? doubtsAgainst(tapedRungs(ladder), line, 'cm', 1) : { doubts: [] };
      const [, low, high] = /([\d.]+) to ([\d.]+) is expected/.exec(doubts[0]?.message ?? '') ?? [];
      return Number(high) - Number(low);
    };
    const one = range(seriesOf(legOf()));
    const four = range(seriesOf(legOf(), legOf(), legOf(), legOf()));
    // Two readings of 3 mm and 0.6 % of 365 mm by itself: ± 1.96 × 4.8 mm and the fit; of five readings ± 1.96 × 4.0 mm.
    expect(one).toBeGreaterThan(1.8);
    expect(one).toBeLessThan(2.3);
    expect(four / one).toBeGreaterThan(0.75);
    expect(four / one).toBeLessThan(0.92);
  });
});
