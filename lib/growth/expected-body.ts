import type { Policy } from '../limits/policy';
import { isNoAnswer } from '../outcome';
import type { Sex, Visit } from '../record/patient-record';
import { DAYS_IN_MONTH } from '../units/age';
import { type CalendarDay, daysBetween, showDay } from '../units/calendar-day';
import { mm } from '../units/length';
import { kg } from '../units/mass';
import { zDrift } from './projection-error';
import { valueAtZ, zScore } from './z-score';

/** A figure that is expected: its value (mm, kg or kg/m²), the SD of its logarithm, and what it is expected from, in words. */
export type ExpectedFigure = { readonly value: number; readonly sd: number; readonly from: string };

/** What is expected of a person's height and weight on a day: from the last figures, else from the tables; and of their body mass index. */
export type ExpectedBody = {
  readonly height: ExpectedFigure;
  readonly weight: ExpectedFigure;
  readonly index: ExpectedFigure;
  /** Height or weight is held against an earlier figure of the person, not against other people. */
  readonly known: { readonly height: boolean; readonly weight: boolean };
};

/** Who is measured. */
export type Somebody = { readonly born: CalendarDay; readonly sex: Sex };

/** A height (mm) or weight (kg) of a day. */
export type BodyReading = { readonly day: CalendarDay; readonly value: number };

type Measure = 'height' | 'weight';

/** The last day that the tables serve: 20 years, CDC 2000. Older people are not expected to grow. */
const LAST_TABLE_DAY = Math.floor(240 * DAYS_IN_MONTH) - 1;
const GROWN_FROM_DAYS = Math.round(18 * 365.25);
/** A grown person's height over a year, mm: loss with age is under 1 cm in ten years until old age (from memory). */
const GROWN_HEIGHT_DRIFT_MM = 3;

/**
 * Grown people: height and body mass index, mean and SD (of the logarithm).
 *
 * Source: ANSUR II 2012 (stature F 1628, SD 64; M 1756, SD 69 mm); index: wider than the survey, because patients are not recruits; clinic default.
 */
const GROWN = { F: { heightMm: 1628, sd: 0.04 }, M: { heightMm: 1756, sd: 0.04 }, X: { heightMm: 1692, sd: 0.055 } } as const;
const GROWN_INDEX = { value: 26, sd: 0.21 };
/** Patients of a table's age differ more than its children do: SD in z. Clinic default. */
const TABLE_SD = 1.2;

/**
 * Height and weight expected of a person on a day, with their spread.
 *
 * From an earlier figure: a child keeps the place in the growth table (z drifts as in `zDrift`), a grown person keeps height and weight,
 * weight wandering with the square root of time. Without one: the table's middle for age and sex, or usual grown people.
 * The clinic's tables are not asked: CDC 2000 (WHO 2006 under 2 years) serves to 20 years and is used to ask only.
 * Shape: somebody, the newest earlier height and weight (or undefined), the day, the policy; mm, kg and kg/m² with SDs of logarithms.
 * Source: `projection-error`, `BODY_LIMITS`. Example: 1,280 mm at 8 years: half a year later 1,310 mm is expected, SD about 0.8 %.
 */
export function expectedBody(
  someone: Somebody,
  last: { readonly height: BodyReading | undefined; readonly weight: BodyReading | undefined },
  day: CalendarDay,
  policy: Policy,
): ExpectedBody {
  const grown = daysBetween(someone.born, day) >= GROWN_FROM_DAYS;
  const usual = grown ? GROWN[someone.sex] : undefined;
  const height = last.height
    ? carriedOn('height', someone, last.height, day, policy)
    : usual
      ? { value: usual.heightMm, sd: usual.sd, from: 'grown people' }
      : ofTable('height', someone, day);
  const index = grown ? { ...GROWN_INDEX, from: 'grown people' } : ofTable('bmi', someone, day);
  const weight = last.weight
    ? carriedOn('weight', someone, last.weight, day, policy)
    : grown
      ? { value: index.value * (height.value / 1000) ** 2, sd: 0.3, from: 'grown people' }
      : ofTable('weight', someone, day);
  return { height, weight, index, known: { height: last.height !== undefined, weight: last.weight !== undefined } };
}

/**
 * An earlier figure carried on to a day, later or earlier, with its spread: how far two readings of one person may differ.
 *
 * Example: a grown person’s 170 cm of last year: 170 cm, with the spread of two readings and of a year.
 */
export function carriedOn(measure: Measure, someone: Somebody, earlier: BodyReading, day: CalendarDay, policy: Policy): ExpectedFigure {
  const days = Math.abs(daysBetween(earlier.day, day));
  const ratio = growthRatio(measure, someone, earlier, day);
  const value = earlier.value * ratio.value;
  const reading = measure === 'height' ? policy.heightReadingSdMm / value : policy.weightReadingSd;
  const drift = measure === 'height' ? GROWN_HEIGHT_DRIFT_MM / value : policy.weightWaverSd;
  const sd = Math.hypot(reading, reading, ratio.sd, ratio.growing ? 0 : drift * Math.sqrt(days / 365.25));
  return { value, sd, from: showDay(earlier.day) };
}

/** How a figure is expected to change with age alone, and the SD of that; 1 and 0 for the grown. */
function growthRatio(measure: Measure, someone: Somebody, earlier: BodyReading, day: CalendarDay) {
  const [from, to] = [daysBetween(someone.born, earlier.day), daysBetween(someone.born, day)].map((age) =>
    Math.min(Math.max(age, 0), LAST_TABLE_DAY),
  );
  if (from === undefined || to === undefined || Math.min(from, to) >= GROWN_FROM_DAYS) return { value: 1, sd: 0, growing: false };
  const sex = someone.sex === 'X' ? 'F' : someone.sex;
  const z = zScore('cdc-2000', measure, sex, from, inTableUnit(measure, earlier.value));
  const place = isNoAnswer(z) ? 0 : Math.min(Math.max(z.z, -2.5), 2.5);
  const months = Math.abs(to - from) / DAYS_IN_MONTH;
  const drift = zDrift(measure, sex, Math.min(from, to), Math.abs(to - from));
  const then = tableValue(measure, sex, from, place);
  const now = tableValue(measure, sex, to, place);
  const beside = tableValue(measure, sex, to, place > 0 ? place - 1 : place + 1);
  const unsure = someone.sex === 'X' ? 0.02 * Math.min(months / 12, 2) : 0;
  return { value: now / then, sd: Math.hypot(drift.sd * Math.abs(Math.log(beside / now)), unsure), growing: true };
}

function ofTable(measure: Measure | 'bmi', { sex, born }: Somebody, day: CalendarDay): ExpectedFigure {
  const age = Math.min(Math.max(daysBetween(born, day), 0), LAST_TABLE_DAY);
  const read = (of: 'F' | 'M') => [tableValue(measure, of, age, 0), tableValue(measure, of, age, 1)] as const;
  const rows = sex === 'X' ? [read('F'), read('M')] : [read(sex)];
  const value = rows.reduce((sum, [middle]) => sum + middle, 0) / rows.length;
  const sd = Math.max(...rows.map(([middle, above]) => Math.log(above / middle))) * TABLE_SD;
  return { value: measure === 'height' ? value * 10 : value, sd, from: 'children of this age' };
}

function tableValue(measure: Measure | 'bmi', sex: 'F' | 'M', ageDays: number, z: number): number {
  const found = valueAtZ('cdc-2000', measure, sex, ageDays, z);
  if (isNoAnswer(found)) throw new RangeError(`no ${measure} in the tables at ${ageDays} days, z ${z}`);
  return found.value;
}

function inTableUnit(measure: Measure, value: number): number {
  return measure === 'height' ? value / 10 : value;
}

/**
 * The newest height and weight before a place in a list of visits, those that `leave` names left out.
 * Example: weighed in May, measured for height in March and May → both of May.
 */
export function lastBody(visits: readonly Visit[], leave: (visit: Visit, measure: Measure) => boolean = () => false) {
  const newest = (measure: Measure): BodyReading | undefined => {
    const visit = visits.findLast((one) => one[measure] && !leave(one, measure));
    const value = visit && bodyValue(visit, measure);
    return visit && value !== undefined ? { day: visit.day, value } : undefined;
  };
  return { height: newest('height'), weight: newest('weight') };
}

/** Height in mm or weight in kg of a visit. Example: a height typed as 128 cm: 1280. */
export function bodyValue(visit: Visit, measure: Measure): number | undefined {
  if (measure === 'height') return visit.height ? mm(visit.height.nm) : undefined;
  return visit.weight ? kg(visit.weight) : undefined;
}
