import { sidesChanged } from '../doubts/sides-changed';
import type { Doubt } from '../ladder/doubt';
import type { TapeSds } from '../limits/tape-sds';
import { dayNumber } from '../units/calendar-day';
import { ladderAsTaped } from './last-ladder';
import type { LimbSeries, SeriesVisit } from './series-visit';

/**
 * The series with every visit marked at which left and right look changed round against the visit before.
 *
 * Asked once, on the side that comes first; both ladders of the visit stand in doubt. A cheap look comes first: the means of the two girths
 * must fit the other side's last visit better than their own.
 * Shape: all series of a record; the same with `sidesInDoubt` and the question among the doubts.
 */
export function withSidesInDoubt(all: readonly LimbSeries[], tape: TapeSds): readonly LimbSeries[] {
  return (['leg', 'arm'] as const).reduce<readonly LimbSeries[]>((series, limb) => {
    const [one, other] = series.filter((each) => each.limb === limb);
    if (!one || !other) return series;
    const found = changedVisits(one, other, tape);
    if (found.size === 0) return series;
    return series.map((each) => (each === one || each === other ? marked(each, found, each === one) : each));
  }, all);
}

function changedVisits(one: LimbSeries, other: LimbSeries, tape: TapeSds): ReadonlyMap<SeriesVisit['visit'], Doubt> {
  const found = new Map<SeriesVisit['visit'], Doubt>();
  one.visits.forEach((now, index) => {
    const last = one.visits[index - 1];
    const second = other.visits.findIndex(({ visit }) => visit === now.visit);
    const [nowOther, lastOther] = [other.visits[second], other.visits[second - 1]];
    if (!last || !nowOther || !lastOther || found.has(last.visit) || !mayBeChanged(now, nowOther, last, lastOther)) return;
    const limbs = [
      { ladder: now.ladder, rowsMm: [], affected: true, last: ladderAsTaped(last) },
      { ladder: nowOther.ladder, rowsMm: [], affected: true, last: ladderAsTaped(lastOther) },
    ];
    const doubt = sidesChanged(limbs, { day: dayNumber(now.visit.day), body: now.body, tape });
    if (doubt) found.set(now.visit, doubt);
  });
  return found;
}

function mayBeChanged(one: SeriesVisit, other: SeriesVisit, lastOne: SeriesVisit, lastOther: SeriesVisit): boolean {
  const [a, b, c, d] = [one, other, lastOne, lastOther].map(meanGirth);
  if (!a || !b || !c || !d) return false;
  const apart = (now: number, then: number) => Math.abs(Math.log(now / then));
  return apart(a, d) + apart(b, c) < apart(a, c) + apart(b, d);
}

function meanGirth({ placed }: SeriesVisit): number {
  const { girthsMm } = placed.line;
  return girthsMm.reduce((sum, girth) => sum + girth, 0) / girthsMm.length;
}

function marked(series: LimbSeries, found: ReadonlyMap<SeriesVisit['visit'], Doubt>, asks: boolean): LimbSeries {
  return {
    ...series,
    visits: series.visits.map((one) => {
      const doubt = found.get(one.visit);
      return doubt ? { ...one, sidesInDoubt: true, doubts: asks ? [...one.doubts, doubt] : one.doubts } : one;
    }),
  };
}
