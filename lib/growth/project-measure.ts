import { isNoAnswer, type NoAnswer } from '../outcome';
import type { Sex } from '../record/patient-record';
import { type CalendarDay, daysBetween } from '../units/calendar-day';
import { type GrowthMeasure, type GrowthReference, type MeasuredHow, NO_TABLE_FOR_X } from './growth-reference';
import { zDrift } from './projection-error';
import { valueAtZ, zScore } from './z-score';

/** A child's height, weight or BMI on a later day, in the table's unit, with its error. */
export type ProjectedMeasure = {
  readonly middle: number;
  readonly sd: number;
  readonly low90: number;
  readonly high90: number;
  /** The z-score as measured and as carried on. */
  readonly z: number;
  readonly laterZ: number;
  /** Table and edition at the measurement and on the later day; they differ where one table ends and the next begins. */
  readonly measuredOn: { readonly table: string; readonly edition: string };
  readonly readFrom: { readonly table: string; readonly edition: string };
};

/** No projection goes further. Source: clinic default, from the errors of `projection-error.ts`. 366 days: a leap year counts as one. */
const LONGEST_DAYS = 366;

/** Under 2 years no 90 % band of length is narrower than ±2 cm. Source: clinic default, from the SMOCC errors. */
const NARROWEST_INFANT_BAND_CM = 2;

const NINETY_PER_CENT = 1.6448536269514722;

/**
 * A child's height, weight or BMI on a later day by constant z: the same place in the table, read at the later age.
 *
 * y(t₂) = LMS-back(keep·z(t₁), t₂), with the drift of `zDrift`; SD is half the way between the values one SD either side.
 * The z-score is carried across the join of tables; values of two tables are never subtracted.
 * `furtherZ` is a further SD in z, such as that of `burnDriftZ`. Shape: height in cm, weight in kg, BMI in kg/m². Refuses a day before the measurement, more than 12 months ahead,
 * and what `zScore` refuses on either day.
 * Source: growth tables (README in `tables/`); Bailey 1994, Ann Hum Biol 21:1 (holding z before puberty).
 * Example: CDC 2000, a girl of exactly median height at 9 years stays on the median a year later, SD about 1.3 cm.
 */
export function projectMeasure(
  reference: GrowthReference,
  measure: GrowthMeasure,
  sex: Sex,
  born: CalendarDay,
  measuredOn: CalendarDay,
  value: number,
  laterDay: CalendarDay,
  how?: MeasuredHow,
  furtherZ = 0,
): ProjectedMeasure | NoAnswer {
  const ageDays = daysBetween(born, measuredOn);
  const daysAhead = daysBetween(measuredOn, laterDay);
  if (daysAhead < 0) return { noAnswer: 'That day is before the measurement.' };
  if (daysAhead > LONGEST_DAYS) return { noAnswer: 'Growth is not carried on for more than 12 months. Measure again.' };
  const now = zScore(reference, measure, sex, ageDays, value, how);
  if (isNoAnswer(now)) return now;
  if (sex === 'X') return NO_TABLE_FOR_X;
  const drift = zDrift(measure, sex, ageDays, daysAhead);
  const { keep } = drift;
  const sdZ = Math.hypot(drift.sd, furtherZ);
  const laterZ = keep * now.z;
  const at = (z: number) => valueAtZ(reference, measure, sex, ageDays + daysAhead, z);
  const [middle, below, above, low, high] = [
    at(laterZ),
    at(laterZ - sdZ),
    at(laterZ + sdZ),
    at(laterZ - NINETY_PER_CENT * sdZ),
    at(laterZ + NINETY_PER_CENT * sdZ),
  ];
  if (isNoAnswer(middle)) return middle;
  if (isNoAnswer(below) || isNoAnswer(above) || isNoAnswer(low) || isNoAnswer(high)) {
    return { noAnswer: 'The table has no values this far out, so no range can be given.' };
  }
  const narrowest = measure === 'height' && keep < 1 ? NARROWEST_INFANT_BAND_CM : 0;
  return {
    middle: middle.value,
    sd: Math.max((above.value - below.value) / 2, narrowest / NINETY_PER_CENT),
    low90: Math.min(low.value, middle.value - narrowest),
    high90: Math.max(high.value, middle.value + narrowest),
    z: now.z,
    laterZ,
    measuredOn: { table: now.table, edition: now.edition },
    readFrom: { table: middle.table, edition: middle.edition },
  };
}
