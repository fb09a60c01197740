import { valueAtZ } from '../growth/z-score';
import { isNoAnswer } from '../outcome';
import { measureOf } from '../parts/catalogue';
import { CHILD_AGES, type Measure, type UsualRange } from '../parts/measure';
import type { Sex } from '../record/patient-record';
import { type CalendarDay, daysBetween } from '../units/calendar-day';
import { type BodyTable, readBodyTable } from './body-table';
import { GROWN_BODIES } from './grown-bodies';

/** Mean (natural logarithm of mm or kg) and covariance of what is measured of people of one sex and age. */
export type UsualBody = {
  readonly mean: (variable: string) => number;
  readonly covariance: (one: string, other: string) => number;
  /** Whether the variable goes with others by a survey of single people; if not, only its own range is known, and roughly. */
  readonly isSurveyed: (variable: string) => boolean;
};

export type BodyTables = { readonly M: BodyTable; readonly F: BodyTable };

const GROWN_FROM_YEARS = 18;
/** Last age of the growth tables in days: 20 years, CDC 2000. */
const LAST_TABLE_DAY = 7304;
/** SDs that hold 98 of 100: from the middle to the 99th percentile, and from the 1st to it. */
const Z99 = 2.326;
/** How far people differ from a figure that comes from memory, SD of the logarithm. Clinic default. */
const ROUGH_SD = 0.2;
/** How far a child's proportion to its height differs from a grown person's, SD of the logarithm; under two years, where heads and limbs are of another make. Clinic default. */
const CHILD_PROPORTION_SD = { from2: 0.1, under2: 0.35 } as const;
/** Children of the clinic differ more than those of the growth tables: SD in z. Clinic default, as in `growth/expected-body`. */
const TABLE_SD = 1.2;

let shipped: BodyTables | undefined;

function shippedTables(): BodyTables {
  shipped ??= { M: readBodyTable(GROWN_BODIES.M), F: readBodyTable(GROWN_BODIES.F) };
  return shipped;
}

/**
 * What is usual of a body before anything of it was measured: a joint normal law of log measures.
 *
 * Grown (18 years and more): mean and covariance learnt from a survey, one a sex; sex X is the two together, half and half, with the
 * difference of their means in its covariance. Children from two years: mean and SD by age (percentiles of `childrenMm`, height and weight
 * of CDC 2000), the grown people's correlations, which those of children match within 0.3 where a survey has both (tests/body-model);
 * a measure without figures by age is a grown person's share of the height, with a wide spread. What no survey has stands alone.
 * Shape: sex, birth, a day; logarithms. Source: ANSUR II 2012, Snyder 1977, CDC 2000.
 * Example: a man's hand length has mean ln 193 mm and SD 5.1 %, and a correlation of 0.67 with his height.
 */
export function usualBody(
  someone: { readonly born: CalendarDay; readonly sex: Sex },
  day: CalendarDay,
  tables = shippedTables(),
): UsualBody {
  const years = daysBetween(someone.born, day) / 365.25;
  if (someone.sex === 'X') return eitherOf(bodyOf('M', years, tables), bodyOf('F', years, tables));
  return bodyOf(someone.sex, years, tables);
}

function bodyOf(sex: 'M' | 'F', years: number, tables: BodyTables): UsualBody {
  const grown = grownBody(sex, tables[sex]);
  return years >= GROWN_FROM_YEARS ? grown : childBody(sex, years, grown, tables[sex]);
}

function grownBody(sex: 'M' | 'F', table: BodyTable): UsualBody {
  const places = new Map(table.variables.map((variable, place) => [variable, place]));
  const sdOf = (variable: string) => {
    const range = measureOf(variable)?.usualMm?.[sex];
    return table.sd[places.get(variable) ?? -1] ?? (range ? sdOfRange(range) : roughSd(variable));
  };
  return {
    mean: (variable) => table.mean[places.get(variable) ?? -1] ?? Math.log(middleOf(variable, sex)),
    covariance: (one, other) => correlation(table, places, one, other) * sdOf(one) * sdOf(other),
    isSurveyed: (variable) => places.has(variable),
  };
}

function roughSd(variable: string): number {
  return measureOf(variable)?.roughSd ?? ROUGH_SD;
}

function correlation(table: BodyTable, places: ReadonlyMap<string, number>, one: string, other: string): number {
  if (one === other) return 1;
  return table.correlation[places.get(one) ?? -1]?.[places.get(other) ?? -1] ?? 0;
}

/** A middling figure of a measure, mm: the survey's where there is one, else that of the catalogue. */
function middleOf(variable: string, sex: 'M' | 'F'): number {
  const measure = measureOf(variable);
  const middle = measure?.usualMm?.[sex][1] ?? measure?.roughMm;
  if (!middle) throw new RangeError(`no middle figure of ${variable}`);
  return middle;
}

function childBody(sex: 'M' | 'F', years: number, grown: UsualBody, table: BodyTable): UsualBody {
  const places = new Map(table.variables.map((variable, place) => [variable, place]));
  const known = new Map<string, { readonly mean: number; readonly sd: number }>([
    ['height', byGrowthTable('height', sex, years)],
    ['weight', byGrowthTable('weight', sex, years)],
  ]);
  const height = known.get('height') as { mean: number; sd: number };
  const proportionSd = years < 2 ? CHILD_PROPORTION_SD.under2 : CHILD_PROPORTION_SD.from2;
  const byAge = (variable: string) => {
    const found = known.get(variable) ?? (years < 2 ? undefined : ofAge(measureOf(variable), sex, years));
    if (found) known.set(variable, found);
    return found;
  };
  /** What a variable takes from the height: all of it where its share of the height is known of grown people, nothing where not even that is. */
  const parts = (variable: string) => {
    const own = byAge(variable);
    if (own) return { like: variable, sd: own.sd, alone: 0 };
    if (!grown.isSurveyed(variable)) return { like: variable, sd: 0, alone: Math.hypot(proportionSd, height.sd, roughSd(variable)) };
    return { like: 'height', sd: height.sd, alone: proportionSd };
  };
  return {
    mean: (variable) => byAge(variable)?.mean ?? height.mean + grown.mean(variable) - grown.mean('height'),
    covariance: (one, other) => {
      const [first, second] = [parts(one), parts(other)];
      const own = one === other ? first.alone ** 2 : 0;
      return correlation(table, places, first.like, second.like) * first.sd * second.sd + own;
    },
    isSurveyed: (variable) => byAge(variable) !== undefined,
  };
}

/** Mean and SD by age between the bands' middles, as logarithms; after the last band the mean goes on to a grown person of that sex. */
function ofAge(measure: Measure | undefined, sex: 'M' | 'F', years: number) {
  if (!measure?.childrenMm || !measure.usualMm) return undefined;
  const knots = [
    ...CHILD_AGES.map((age, band) => [age, measure.childrenMm?.[band]] as const),
    [GROWN_FROM_YEARS, measure.usualMm[sex]] as const,
  ];
  const at = Math.max(
    1,
    knots.findIndex(([age]) => age >= years),
  );
  const [[young, from], [old, to]] = [knots[at - 1], knots[at]] as [readonly [number, UsualRange], readonly [number, UsualRange]];
  const share = Math.min(1, Math.max(0, (years - young) / (old - young)));
  const between = (one: number, other: number) => (1 - share) * one + share * other;
  /** Up to 18 years bodies of one age differ as children's do, who are early or late. */
  const older = old === GROWN_FROM_YEARS ? from : to;
  return { mean: between(Math.log(from[1]), Math.log(to[1])), sd: between(sdOfRange(from), sdOfRange(older)) };
}

/** SD of the logarithm of a range. Example: 168 to 208 mm is 4.6 %. */
function sdOfRange([low, , high]: UsualRange): number {
  return Math.log(high / low) / (2 * Z99);
}

function byGrowthTable(measure: 'height' | 'weight', sex: 'M' | 'F', years: number) {
  const age = Math.min(Math.max(Math.round(years * 365.25), 0), LAST_TABLE_DAY);
  const [middle, above] = [0, 1].map((z) => {
    const found = valueAtZ('cdc-2000', measure, sex, age, z);
    if (isNoAnswer(found)) throw new RangeError(`no ${measure} in the tables at ${age} days`);
    return Math.log(found.value * (measure === 'height' ? 10 : 1));
  }) as [number, number];
  return { mean: middle, sd: (above - middle) * TABLE_SD };
}

/** Half of the one and half of the other, as one normal law with the same mean and covariance. */
function eitherOf(one: UsualBody, other: UsualBody): UsualBody {
  const half = (variable: string) => (one.mean(variable) - other.mean(variable)) / 2;
  return {
    mean: (variable) => (one.mean(variable) + other.mean(variable)) / 2,
    covariance: (first, second) => (one.covariance(first, second) + other.covariance(first, second)) / 2 + half(first) * half(second),
    isSurveyed: (variable) => one.isSurveyed(variable),
  };
}
