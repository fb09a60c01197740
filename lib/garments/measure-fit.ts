import { usualChangeSd } from '../doubts/measure-observations';
import type { Policy } from '../limits/policy';
import { isNoAnswer, type NoAnswer } from '../outcome';
import { outlookGrowth } from '../parts/grows-as';
import type { Measure } from '../parts/measure';
import { garmentSet, isOfSet } from '../record/garment-needs';
import type { NamedMeasure, PatientRecord, Piece } from '../record/patient-record';
import { type MeasureAt, measureSeries } from '../trend/measure-series';
import { addDays, type CalendarDay, daysBetween } from '../units/calendar-day';
import { relaxedGirth } from './relaxed-girth';
import { relativeTightness, tightnessSlope } from './tightness';

/** The first day on which a measure no longer fits its piece: middle estimate, and the early day that nine in ten keep to. */
export type MeasureOutlook = {
  readonly day: CalendarDay | null;
  readonly earlyDay: CalendarDay | null;
  readonly by: 'tighter' | 'looser' | 'short' | null;
  readonly lookedUntil: CalendarDay;
};

/** How one named measure sits in the piece that was cut from it. */
export type MeasureFit = {
  readonly measure: Measure;
  readonly taken: NamedMeasure;
  readonly cutMm: number;
  readonly nowMm: number;
  readonly nowDay: CalendarDay;
  /** Girths: tightness against the fitting through the piece's reduction, as taped, with its SD; null for lengths. */
  readonly tightness: { readonly value: number; readonly sd: number } | null;
  /** The change since it was cut, as a ratio, drawn towards what growth and usual change lead one to expect. */
  readonly evenedRatio: number;
  /** Lengths: by how much more than it was cut for, mm, by the evened change; null for girths. */
  readonly shortMm: number | null;
  readonly isOutside: boolean;
  readonly outlook: MeasureOutlook | NoAnswer;
};

/** One-sided 90 % point of the normal distribution. */
const NINETY = 1.2816;
const LONGEST_DAYS = 364;
const DIGIT = /(thumb|finger|toe)-length$/;

/**
 * The named measures a piece was cut from, each against its newest trusted figure and ahead.
 *
 * Girths sit by `relativeTightness` through the piece's reduction; lengths are short by what the part outgrew the piece. Today's change is drawn
 * from two readings towards growth: d = (e/s² + c/t²) / (1/s² + 1/t²), e and s what growth and usual change lead one to expect, c and t taped.
 * Ahead growth alone goes on (`outlookGrowth`), up to a year and not past the known bands; the early day is 1.28 SD out. No day is
 * given for somebody who has done growing, nor where no growth by age is known.
 * Shape: a piece with a garment, a record without heights and weights in doubt, the policy; one entry a measure and side of the garment's set
 * that the visit it was cut from has; heights and breadths are not cut and left out. Source: engine sections 7 and 11; Snyder 1977.
 * Example: a girl's middle finger of 49 mm at 4.5 years grows 3.0 mm in the next year: 2 mm short after about 250 days.
 */
export function measureFits(piece: Piece, record: PatientRecord, policy: Policy): readonly MeasureFit[] {
  if (!piece.garment) return [];
  const set = garmentSet(piece.garment, piece);
  const cutVisit =
    record.visits.find(({ visitId }) => visitId !== undefined && visitId === piece.cutFromVisitId) ??
    record.visits.find(({ day }) => day === piece.cutFrom);
  if (!cutVisit?.measures?.some((taken) => isOfSet(set, taken))) return [];
  return measureSeries(record, policy).flatMap(({ measure, visits }): MeasureFit[] => {
    const cut = visits.find(({ visit }) => visit === cutVisit);
    if (!cut || !isOfSet(set, cut.taken) || (measure.kind !== 'girth' && measure.kind !== 'length')) return [];
    const now = visits.findLast((one) => one.visit.day >= cut.visit.day && one.doubts.length === 0) ?? cut;
    return [fitOf(piece, measure, cut, now, record, policy)];
  });
}

function fitOf(piece: Piece, measure: Measure, cut: MeasureAt, now: MeasureAt, record: PatientRecord, policy: Policy): MeasureFit {
  const evened = evenedChange(measure, cut, now, record);
  const relaxedMm = relaxedGirth(cut.lengthMm, piece.reductionPct, piece.convention);
  const isGirth = measure.kind === 'girth';
  const readings = now === cut ? 0 : Math.hypot(cut.sdMm, now.sdMm) / cut.lengthMm;
  const tightness = isGirth
    ? {
        value: relativeTightness(relaxedMm, now.lengthMm, cut.lengthMm),
        sd: tightnessSlope(relaxedMm, now.lengthMm, cut.lengthMm) * readings,
      }
    : null;
  const leaves = (ratio: number): MeasureOutlook['by'] => {
    if (!isGirth) return cut.lengthMm * (ratio - 1) > mostShortMm(measure, policy) ? 'short' : null;
    const value = relativeTightness(relaxedMm, cut.lengthMm * ratio, cut.lengthMm);
    return value > policy.bandHigh ? 'tighter' : value < policy.bandLow ? 'looser' : null;
  };
  const asTaped = leaves(now.lengthMm / cut.lengthMm);
  return {
    measure,
    taken: now.taken,
    cutMm: cut.lengthMm,
    nowMm: now.lengthMm,
    nowDay: now.visit.day,
    tightness,
    evenedRatio: evened.ratio,
    shortMm: isGirth ? null : cut.lengthMm * (evened.ratio - 1),
    isOutside: asTaped !== null && leaves(evened.ratio) === asTaped,
    outlook: outlookOf(measure, now, evened, leaves, record),
  };
}

/** How much longer than it was cut for a part may be, mm. */
function mostShortMm({ id }: Measure, policy: Policy): number {
  return DIGIT.test(id) ? policy.fingerShortMm : policy.footShortMm;
}

function evenedChange(measure: Measure, cut: MeasureAt, now: MeasureAt, record: PatientRecord): { ratio: number; sd: number } {
  if (now === cut) return { ratio: 1, sd: 0 };
  const [from, to] = [cut, now].map(({ visit }) => daysBetween(record.born, visit.day) / 365.25) as [number, number];
  const growth = outlookGrowth(measure, record.sex, from, to, cut.lengthMm);
  const expected = { at: Math.log(growth.ratio), variance: growth.sd ** 2 + usualChangeSd(record, measure, cut.taken, to - from) ** 2 };
  const taped = { at: Math.log(now.lengthMm / cut.lengthMm), variance: (cut.sdMm / cut.lengthMm) ** 2 + (now.sdMm / now.lengthMm) ** 2 };
  const weight = 1 / expected.variance + 1 / taped.variance;
  return {
    ratio: Math.exp((expected.at / expected.variance + taped.at / taped.variance) / weight),
    sd: Math.sqrt(1 / weight),
  };
}

function outlookOf(
  measure: Measure,
  now: MeasureAt,
  evened: { ratio: number; sd: number },
  leaves: (ratio: number) => MeasureOutlook['by'],
  record: PatientRecord,
): MeasureOutlook | NoAnswer {
  const age = daysBetween(record.born, now.visit.day) / 365.25;
  const ahead = (days: number) => outlookGrowth(measure, record.sex, age, age + days / 365.25, now.lengthMm);
  if (ahead(LONGEST_DAYS).ratio === 1) return { noAnswer: 'Grown: no day is forecast.' };
  if (!ahead(LONGEST_DAYS).known) return { noAnswer: `How the ${measure.name} grows at this age is not known.` };
  const at = (days: number, sds: number) => {
    const { ratio, sd } = ahead(days);
    return leaves(evened.ratio * ratio * Math.exp(sds * Math.hypot(evened.sd, sd)));
  };
  const firstDay = (sds: number): number | null => {
    const days = Array.from({ length: LONGEST_DAYS + 1 }, (_, day) => day);
    return days.find((day) => at(day, sds) !== null) ?? null;
  };
  const [middle, early] = [firstDay(0), firstDay(NINETY)];
  const onDay = (days: number | null) => (days === null ? null : addDays(now.visit.day, days));
  return {
    day: onDay(middle),
    earlyDay: onDay(early),
    by: middle === null ? (early === null ? null : at(early, NINETY)) : at(middle, 0),
    lookedUntil: addDays(now.visit.day, LONGEST_DAYS),
  };
}

/**
 * The measure of a piece that leaves it first, with its days; undefined where none is foreseen to.
 * Example: palm girth from June, index length from April → the index length.
 */
export function firstToLeave(fits: readonly MeasureFit[]): (MeasureFit & { readonly outlook: MeasureOutlook }) | undefined {
  const foreseen = fits.flatMap((fit) => {
    const { outlook } = fit;
    return isNoAnswer(outlook) || outlook.earlyDay === null ? [] : [{ ...fit, outlook }];
  });
  return foreseen.sort((one, other) => (one.outlook.earlyDay ?? '').localeCompare(other.outlook.earlyDay ?? ''))[0];
}
