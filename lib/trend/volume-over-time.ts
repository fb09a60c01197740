import { alignLadders, toEarlier, toLater } from '../alignment/align-ladders';
import { bodyChange } from '../growth/body-change';
import { isNoAnswer } from '../outcome';
import type { Policy } from '../record/policy';
import type { CalendarDay } from '../units/calendar-day';
import { limbVolume } from '../volume/limb-volume';
import type { Span } from '../volume/span-volume';
import { heightOnLimb, type LimbSeries, type SeriesVisit, tapeErrorOf } from './limb-series';

/** Volume of the same anatomy at one visit, with its 95 % range, ml. */
export type DatedVolume = {
  readonly day: CalendarDay;
  readonly volumeMl: number;
  readonly lowMl: number;
  readonly highMl: number;
  readonly atVisit: number;
};

/** A limb's volume over its visits, over the stretch that all of them tape. */
export type VolumeOverTime = {
  readonly points: readonly DatedVolume[];
  /** The common stretch on the newest ladder, heights above the distal landmark, mm. */
  readonly spanMm: readonly [from: number, to: number];
  /** Visits left out because they cannot be put on the same anatomy or tape too little of it. */
  readonly leftOut: readonly { readonly day: CalendarDay; readonly why: string }[];
};

/** A visit that would cut the common stretch below this share of the newest ladder is left out and named. Clinic default. */
const LEAST_SHARE = 0.5;

/**
 * Volumes that may be drawn as one line: every visit over the same stretch of anatomy, on the newest ladder's landmarks.
 *
 * Shape: a series and the policy; millilitres with 95 % ranges (±1.96 SD of each visit). Undefined when the newest ladder has no volume.
 * Source: engine sections 3 and 4. Example: two visits of rungs 4 to 60 cm and 4 to 56 cm are both shown over 4 to 56 cm.
 */
export function volumeOverTime(series: LimbSeries, policy: Policy): VolumeOverTime | undefined {
  const newest = series.visits.at(-1);
  const { placesMm = [] } = newest?.placed.line ?? {};
  const first = placesMm[0];
  const last = placesMm.at(-1);
  if (!newest || first === undefined || last === undefined || last <= first) return undefined;
  const span = { fromMm: first, toMm: last };
  const leftOut: { day: CalendarDay; why: string }[] = [];
  const kept: { visit: SeriesVisit; index: number; toOwn: (placeMm: number) => number }[] = [];
  for (let index = series.visits.length - 1; index >= 0; index--) {
    const visit = series.visits[index] as SeriesVisit;
    const mapped = mapOnto(visit, newest, series);
    if (!mapped) {
      leftOut.push({ day: visit.visit.day, why: 'no landmark shared with the newest ladder, or fewer than two girths' });
      continue;
    }
    const fromMm = Math.max(span.fromMm, mapped.span.fromMm);
    const toMm = Math.min(span.toMm, mapped.span.toMm);
    if (toMm - fromMm < LEAST_SHARE * (last - first)) {
      leftOut.push({ day: visit.visit.day, why: 'too little of the newest ladder’s stretch was taped' });
      continue;
    }
    span.fromMm = fromMm;
    span.toMm = toMm;
    kept.unshift({ visit, index, toOwn: mapped.toOwn });
  }
  const points = kept.flatMap(({ visit, index, toOwn }) =>
    point(visit, index, { fromMm: toOwn(span.fromMm), toMm: toOwn(span.toMm) }, policy),
  );
  return { points, spanMm: [heightOnLimb(newest, span.fromMm), heightOnLimb(newest, span.toMm)], leftOut };
}

/** A visit's taped span on the newest ladder's ruler, and the way back to its own. */
function mapOnto(
  visit: SeriesVisit,
  newest: SeriesVisit,
  series: LimbSeries,
): { span: Span; toOwn: (placeMm: number) => number } | undefined {
  const { placesMm } = visit.placed.line;
  const first = placesMm[0];
  const last = placesMm.at(-1);
  if (first === undefined || last === undefined || last <= first) return undefined;
  if (visit === newest) return { span: { fromMm: first, toMm: last }, toOwn: (place) => place };
  const body = bodyChange(visit.body, newest.body, series.limb, visit.growing, newest.placed.day - visit.placed.day);
  const alignment = alignLadders(visit.placed, newest.placed, series.limb, body.expectedLength);
  if (!alignment) return undefined;
  const inside = (place: number): number => Math.min(Math.max(place, first), last);
  return {
    span: { fromMm: toLater(alignment, first), toMm: toLater(alignment, last) },
    toOwn: (place) => inside(toEarlier(alignment, place)),
  };
}

function point(visit: SeriesVisit, index: number, span: Span, policy: Policy): DatedVolume[] {
  const tape = tapeErrorOf(policy);
  const tension = visit.visit.measurer ? tape.tensionSameMeasurer : tape.tensionOtherMeasurer;
  const volume = limbVolume(visit.placed.line, tape, tension, span);
  if (isNoAnswer(volume)) return [];
  const reach = 1.96 * volume.sdMl;
  return [
    { day: visit.visit.day, volumeMl: volume.volumeMl, lowMl: volume.volumeMl - reach, highMl: volume.volumeMl + reach, atVisit: index },
  ];
}
