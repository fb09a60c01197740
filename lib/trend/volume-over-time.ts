import { alignLadders, toLater } from '../alignment/align-ladders';
import { bodyChange } from '../growth/body-change';
import type { Policy } from '../limits/policy';
import { isNoAnswer, type NoAnswer } from '../outcome';
import { REACH_95 } from '../statistics/reach-95';
import type { CalendarDay } from '../units/calendar-day';
import { type LimbVolume, limbVolume } from '../volume/limb-volume';
import type { Span } from '../volume/span-volume';
import type { LimbCourse } from './limb-course';
import { heightOnLimb, tapeErrorOf } from './limb-series';
import type { LimbSeries, SeriesVisit } from './series-visit';

/** The limb's volume at one visit, as measured from its first rung to its last, with its 95 % range, ml. */
export type DatedVolume = {
  readonly day: CalendarDay;
  readonly volumeMl: number;
  readonly lowMl: number;
  readonly highMl: number;
  readonly atVisit: number;
};

/** A limb's volume over its visits: those whose ladders cover the same stretch as the newest. */
export type VolumeOverTime = {
  readonly points: readonly DatedVolume[];
  /** The stretch of the newest ladder, heights above the distal landmark, mm. */
  readonly spanMm: readonly [from: number, to: number];
  /** Visits left out of the line because they cannot be put on the same anatomy or cover another stretch of it. */
  readonly leftOut: readonly { readonly day: CalendarDay; readonly why: string }[];
};

/** A ladder of which more than this share lies beyond the newest, or that lacks more than this share of it, is of another stretch. Clinic default. */
const OTHER_STRETCH = 0.06;

/**
 * Volumes that may be drawn as one line: every visit's own volume, the same figure as everywhere, where its ladder covers the anatomy that
 * the newest covers. A visit of another stretch is named and left out of the line; changes over a shared stretch stand with the verdicts.
 *
 * Shape: a series and the policy; millilitres with 95 % ranges (±1.96 SD of each visit). Undefined when the newest ladder has no volume.
 * Source: engine sections 3 and 4. Example: rungs 4 to 60 cm and 4 to 44 cm: the shorter ladder is left out, its volume stays in the table.
 */
export function volumeOverTime(series: LimbSeries, policy: Policy): VolumeOverTime | undefined {
  const newest = series.visits.at(-1);
  const span = newest && ownSpan(newest);
  if (!newest || !span) return undefined;
  const leftOut: { day: CalendarDay; why: string }[] = [];
  const points = series.visits.flatMap((visit, index) => {
    const mapped = mapOnto(visit, newest, series);
    if (!mapped) {
      leftOut.push({ day: visit.visit.day, why: 'no landmark shared with the newest ladder, or fewer than two girths' });
      return [];
    }
    if (isOtherStretch(mapped, span)) {
      leftOut.push({ day: visit.visit.day, why: 'its ladder covers another stretch than the newest' });
      return [];
    }
    return point(visit, index, policy);
  });
  return { points, spanMm: [heightOnLimb(newest, span.fromMm), heightOnLimb(newest, span.toMm)], leftOut };
}

function isOtherStretch(one: Span, newest: Span): boolean {
  const most = OTHER_STRETCH * (newest.toMm - newest.fromMm);
  return Math.abs(one.fromMm - newest.fromMm) > most || Math.abs(one.toMm - newest.toMm) > most;
}

function ownSpan(visit: SeriesVisit): Span | undefined {
  const { placesMm } = visit.placed.line;
  const [first, last] = [placesMm[0], placesMm.at(-1)];
  return first === undefined || last === undefined || last <= first ? undefined : { fromMm: first, toMm: last };
}

/** A visit's measured span on the newest ladder's ruler. */
function mapOnto(visit: SeriesVisit, newest: SeriesVisit, series: LimbSeries): Span | undefined {
  const span = ownSpan(visit);
  if (!span || visit === newest) return span;
  const body = bodyChange(visit.body, newest.body, series.limb, visit.growing, newest.placed.day - visit.placed.day);
  const alignment = alignLadders(visit.placed, newest.placed, series.limb, body.expectedLength);
  return alignment && { fromMm: toLater(alignment, span.fromMm), toMm: toLater(alignment, span.toMm) };
}

function point(visit: SeriesVisit, index: number, policy: Policy): DatedVolume[] {
  const volume = volumeOfVisit(visit, policy);
  if (isNoAnswer(volume)) return [];
  const reach = REACH_95 * volume.sdMl;
  return [
    { day: visit.visit.day, volumeMl: volume.volumeMl, lowMl: volume.volumeMl - reach, highMl: volume.volumeMl + reach, atVisit: index },
  ];
}

/**
 * The limb's volume at each visit of a line as all its visits together have it, with its 95 % range, ml: the line of a chart whose marks are measured.
 *
 * Measured volume × exp(2 (level − taped)), level and its SD from `smoothLevels`; the stretch is taken as taped. Shape: a limb's course and the points of its
 * line; fewer points where a visit cannot be set on the first ladder's anatomy, none for one visit. Source: engine section 6; a frustum's volume goes with the square of girth.
 * Example: 1,000 ml taped 1 % of girth above what all visits have, SD 0.5 %: 980 ml, 961 to 1,000.
 */
export function volumeOfCourse(course: LimbCourse, points: readonly DatedVolume[]): readonly DatedVolume[] {
  const levels = course.levels();
  return points.flatMap((point) => {
    const found = levels.find(({ visit }) => visit === point.atVisit);
    if (!found) return [];
    const at = (sds: number): number => point.volumeMl * Math.exp(2 * (found.level - found.taped + sds * found.sd));
    return [{ ...point, volumeMl: at(0), lowMl: at(-REACH_95), highMl: at(REACH_95) }];
  });
}

/**
 * The limb's volume of one visit: the one figure that every screen, letter and file gives for it.
 *
 * Example: the figure of the chart’s newest mark, and that of the letter.
 */
export function volumeOfVisit(visit: SeriesVisit, policy: Policy): LimbVolume | NoAnswer {
  const tape = tapeErrorOf(policy);
  return limbVolume(visit.placed.line, tape, visit.visit.measurer ? tape.tensionSameMeasurer : tape.tensionOtherMeasurer);
}
