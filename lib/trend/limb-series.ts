import { type LineAtVisit, type PlacedLine, placeLandmarks } from '../alignment/place-landmarks';
import type { BodyDoubt } from '../doubts/body-doubts';
import { recordBodyDoubts } from '../doubts/record-body-doubts';
import { type BodyAt, bodyAt } from '../growth/body-at';
import { crossExamined } from '../ladder/cross-examined';
import type { Doubt } from '../ladder/doubt';
import { DOUBT_LIMITS } from '../ladder/doubt-limits';
import { doubtfulRungs, hasGirthAtJoint } from '../ladder/doubtful-rungs';
import { floorCheck } from '../ladder/floor-check';
import type { Ladder } from '../ladder/ladder';
import { distalLandmark, type LimbKind, type Side } from '../ladder/limb';
import type { Ruler } from '../ladder/place-on-tape';
import { longerThanBody } from '../ladder/size-check';
import { tapedLine } from '../ladder/taped-line';
import { zeroAndDirection } from '../ladder/zero-and-direction';
import type { Policy } from '../limits/policy';
import { tapeSds } from '../limits/tape-sds';
import { isAffected, type PatientRecord, type Visit } from '../record/patient-record';
import { type CalendarDay, dayNumber } from '../units/calendar-day';
import type { TapeError } from '../volume/tape-error';
import { sameDayDoubt } from './same-day';
import type { LimbSeries, SeriesVisit } from './series-visit';
import { withSidesInDoubt } from './sides-in-doubt';

/**
 * Whether a patient counts as growing on a day: before the birthday that the clinic has set. Days of one form compare as texts.
 *
 * Example: born on 29 Feb 2008, grown from 18 years: growing on 28 Feb 2026, not on 1 Mar 2026.
 */
export function isGrowing(record: PatientRecord, day: CalendarDay, policy: Policy): boolean {
  const years = Number(record.born.slice(0, 4)) + Math.ceil(policy.grownFromYears);
  return day < `${String(years).padStart(4, '0')}${record.born.slice(4)}`;
}

/** The tape's error as the clinic has set it. */
export function tapeErrorOf(policy: Policy): TapeError {
  return {
    readingMm: policy.readingSdMm,
    tensionSameMeasurer: policy.tensionSameSd,
    tensionOtherMeasurer: policy.tensionOtherSd,
    placementMm: policy.placementSdMm,
  };
}

/**
 * The series of every limb that was ever taped, visits in order of time, missing landmarks inferred and flagged.
 *
 * Shape: a patient record and the clinic's policy; one series a limb, legs before arms, left before right.
 * Example: three visits with both legs taped give two series of three.
 */
export function limbSeries(record: PatientRecord, policy: Policy): readonly LimbSeries[] {
  const visits = [...record.visits].sort((one, other) => (one.day + (one.time ?? '')).localeCompare(other.day + (other.time ?? '')));
  const bodyDoubts = recordBodyDoubts(record, policy);
  const keys = (['leg', 'arm'] as const).flatMap((limb) => (['left', 'right'] as const).map((side) => ({ limb, side })));
  const all = keys.flatMap(({ limb, side }) => {
    const taped = visits.flatMap((visit) => {
      const ladder = visit.ladders.find((one) => one.limb === limb && one.side === side);
      return ladder ? [{ visit, ladder }] : [];
    });
    return taped.length > 0 ? [seriesOf(record, policy, visits, bodyDoubts, limb, side, taped)] : [];
  });
  return withSidesInDoubt(all, tapeSds(policy));
}

function seriesOf(
  record: PatientRecord,
  policy: Policy,
  visits: readonly Visit[],
  bodyDoubts: ReadonlyMap<Visit, readonly BodyDoubt[]>,
  limb: LimbKind,
  side: Side,
  taped: readonly { visit: Visit; ladder: Ladder }[],
): LimbSeries {
  const parts = taped.map(({ visit, ladder }) => {
    const growing = isGrowing(record, visit.day, policy);
    return { visit, ladder, growing, body: bodyAt(visits, visit.day, growing), line: tapedLine(ladder) };
  });
  const lines: LineAtVisit[] = parts.map(({ visit, ladder, line, body }) => ({
    day: dayNumber(visit.day),
    line,
    bodyHeightMm: body.heightMm?.value,
    zero: ladder.zero,
  }));
  const placed = placeLandmarks(lines, limb, parts[0]?.growing ?? false, policy.placementSdMm);
  return {
    limb,
    side,
    visits: parts.map(({ visit, ladder, growing, body }, index) => {
      const milder = isAffected(record, limb, side) ? DOUBT_LIMITS.swollenNeighbours.value : 1;
      const before = parts[index - 1]?.ladder;
      const usual = before !== undefined && hasGirthAtJoint(before);
      const doubts = crossExamined(ladder, (one) => {
        const whole = [zeroAndDirection(one), floorCheck(one, body.heightMm?.value)].filter((doubt) => doubt !== undefined);
        const own = doubtfulRungs(one, milder);
        return [...(usual ? own.filter(({ kind }) => kind !== 'girth-at-joint') : own), ...whole];
      });
      return {
        visit,
        ladder,
        growing,
        body,
        placed: placed[index] as PlacedLine,
        doubts: [
          ...doubts,
          ...whole(longerThanBody(ladder, body.heightMm?.value), sameDayDoubt(parts, index)),
          ...(bodyDoubts.get(visit) ?? []),
        ],
        bodyInDoubt: inDoubt(body, visits, bodyDoubts),
      };
    }),
  };
}

function whole(...doubts: readonly (Doubt | undefined)[]): Doubt[] {
  return doubts.filter((doubt) => doubt !== undefined);
}

function inDoubt(body: BodyAt, visits: readonly Visit[], open: ReadonlyMap<Visit, readonly BodyDoubt[]>): ('height' | 'weight')[] {
  if (open.size === 0) return [];
  const of = (measure: 'height' | 'weight', day: CalendarDay | undefined): boolean =>
    day !== undefined && visits.some((visit) => visit.day === day && open.get(visit)?.some(({ kind }) => kind === measure));
  return (['height', 'weight'] as const).filter((measure) => of(measure, body[measure === 'height' ? 'heightMm' : 'weightKg']?.day));
}

/**
 * Height of a place above the distal landmark where that is known on this ladder (taped or inferred), else above its own zero, mm.
 *
 * Example: a ladder down from the gluteal fold with the ankle crease at 590 mm has its first rung (place 0) at height 590.
 */
export function heightOnLimb(visit: SeriesVisit, placeMm: number): number {
  return placeMm - (visit.placed.landmarks.get(distalLandmark(visit.ladder.limb))?.placeMm ?? 0);
}

/** How the places of a visit's ladder are counted, on the scale of `heightOnLimb`. */
export function rulerOf(visit: SeriesVisit): Ruler {
  const { zero, direction, unit } = visit.ladder;
  return { zero, zeroMm: heightOnLimb(visit, 0), direction, unit };
}
