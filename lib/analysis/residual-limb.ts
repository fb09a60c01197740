import { limbInWords } from '../ladder/limb';
import { isNoAnswer, type NoAnswer } from '../outcome';
import type { LimbSide, PatientRecord } from '../record/patient-record';
import type { CalendarDay } from '../units/calendar-day';
import { mm } from '../units/length';
import { type EndCapForm, endCap } from '../volume/end-cap';
import type { AnalysedLimb, AnalysedVisit } from './analyse-patient';

/** The form that is taken; the other two give the range. Clinic default: the middle one. */
const CAP_FORM: EndCapForm = 'paraboloid';

/** A limb that ends early, at one visit: what its ladder holds and what its end adds, ml. */
export type ResidualVolume = LimbSide & {
  readonly day: CalendarDay;
  readonly ladderMl: number;
  readonly capMl: number;
  readonly capLowMl: number;
  readonly capHighMl: number;
  readonly endMm: number;
  readonly wholeMl: number;
  readonly words: string;
};

/**
 * Volume of a residual limb with its end, where the visit has the length from the ladder's zero to the soft end.
 *
 * V = frusta of the ladder + k A h, A and h the circle of the girth next to the end and what lies beyond it; k of a paraboloid, a cone and half an
 * ellipsoid as its range. Downward ladders: h = end length − place of the last girth; a ladder counted from the end itself (up): h = place of
 * its first girth. Undefined where the visit has no such length; refuses an end that lies before the last girth and a ladder that goes up from
 * elsewhere. Shape: a limb and one of its visits; ml. Source: `volume/end-cap`.
 * Example: last girth 24 cm at 12 cm, end length 16 cm: 91.673 ml (61.115 to 122.231) beyond the ladder.
 */
export function residualVolume({ series }: AnalysedLimb, { at, volume }: AnalysedVisit): ResidualVolume | NoAnswer | undefined {
  const { limb, side } = series;
  const own = at.visit.measures?.find((one) => one.measure === `residual-${limb}-length` && one.side === side);
  if (!own) return undefined;
  if (isNoAnswer(volume)) return volume;
  const { ladder } = at;
  const girths = ladder.rungs.flatMap(({ distance, girth }) => (girth ? [{ at: mm(distance.nm), girth: mm(girth.nm) }] : []));
  const fromEnd = ladder.direction === 'up';
  if (fromEnd && !/\bend\b/i.test(ladder.zero))
    return {
      noAnswer: `The ladder of the ${limbInWords(limb, side)} goes up from ${ladder.zero}: count it down from there, or up from the end.`,
    };
  const last = girths.reduce((one, other) => (fromEnd === other.at < one.at ? other : one));
  const endMm = fromEnd ? last.at : mm(own.length.nm) - last.at;
  if (endMm < 0) return { noAnswer: `The end of the ${limbInWords(limb, side)} lies before its last girth: measure the length again.` };
  const ml = (form: EndCapForm) => endCap(form, last.girth, endMm) / 1000;
  const [capMl, capLowMl, capHighMl] = [ml(CAP_FORM), ml('cone'), ml('half-ellipsoid')];
  return {
    limb,
    side,
    day: at.visit.day,
    ladderMl: volume.volumeMl,
    capMl,
    capLowMl,
    capHighMl,
    endMm,
    wholeMl: volume.volumeMl + capMl,
    words: `The end beyond the last girth as a ${CAP_FORM}; a cone or half an ellipsoid gives the range.`,
  };
}

/** A loss a unit of ln(week) as a share of the volume at the start. Source: Tantua 2014, after amputation below the knee, n 21: 200.5 ml of 9.7 %. */
const LOSS_PER_LN_WEEK = 0.097;
/** Weeks until a residual limb is taken to be settled. Source: Sanders & Fatone 2011: 12 to 18 months. */
const SETTLED_WEEKS = 78;

/**
 * The share of its first volume that a residual limb is expected to lose between two days after the amputation: 0.097 ln(w₂ / w₁).
 *
 * Shape: days since the amputation, the earlier one at least a week; a share, 0 after 78 weeks. Source: Tantua 2014 (abstract read); one study of legs
 * below the knee, taken for every residual limb. Example: week 4 to 12: 10.7 %.
 */
export function expectedShrinking(fromDays: number, toDays: number): number {
  const [from, to] = [fromDays, toDays].map((days) => Math.min(Math.max(days / 7, 1), SETTLED_WEEKS)) as [number, number];
  return Math.max(0, LOSS_PER_LN_WEEK * Math.log(to / from));
}

/** The amputation of a record: the newest operation whose words name one, on or before a day. */
export function amputationBefore(record: PatientRecord, day: CalendarDay): CalendarDay | undefined {
  return (record.events ?? []).filter((one) => one.kind === 'operation' && /amput/i.test(one.words) && one.day <= day).at(-1)?.day;
}
