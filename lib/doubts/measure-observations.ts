import { type JointFigures, jointFigures } from '../body-model/given-the-others';
import { type UsualBody, usualBody } from '../body-model/usual-body';
import { bodyAt } from '../growth/body-at';
import type { Policy } from '../limits/policy';
import { expectedGrowth } from '../parts/expected-growth';
import type { Measure, OwnMeasure, PartSide } from '../parts/measure';
import { measureTaken, withOwn } from '../parts/own-measure';
import type { NamedMeasure, PatientRecord, Visit } from '../record/patient-record';
import { type CalendarDay, daysBetween } from '../units/calendar-day';
import { mm } from '../units/length';
import { heightFigure, weightFigure } from './body-doubts';
import type { TypedFigure } from './figure-evidence';

/** A measure of a visit on its day; of an earlier one where it is carried beside today's. */
export type EarlierMeasure = { readonly day: CalendarDay; readonly taken: NamedMeasure };

/** One figure among those that a question leans on: of today, of the last time, or the body's height and weight. */
export type Observation = {
  /** `height`, `weight`, or the id of a measure. */
  readonly variable: string;
  readonly side: PartSide;
  readonly log: number;
  /** SD of what belongs to this figure alone. */
  readonly ownSd: number;
  /** SD of what this side has by itself, at every visit. */
  readonly sideSd: number;
  /** The measure of today that it is; undefined of the others. */
  readonly today: NamedMeasure | undefined;
  /** What was typed, where it may be wrong; undefined of a figure that was trusted before. */
  readonly typed: TypedFigure | undefined;
  /** A clinic's own measure: no survey tells how it goes with others. */
  readonly own?: OwnMeasure;
};

/**
 * How far one figure may differ from another of the same person, SD of the logarithm.
 *
 * `side`: left from right; `change`: from one visit to the next beyond growth. Girths: `SPREAD` of ladders (`other` rung, `last`); lengths
 * and heights differ less; affected parts more (half of `otherSwollen`, `lastSwollen`). Clinic default.
 */
const MEASURE_SPREAD = {
  girth: { side: 0.02, change: 0.03 },
  length: { side: 0.01, change: 0.01 },
  affected: { side: 0.1, change: 0.07 },
  /** Two limbs that end early end where they do; soft parts of an end shrink. */
  residual: { side: 0.6, change: 0.05 },
} as const;

/** Everything that the named measures of one visit are held against, themselves among it. */
export function observationsOf(record: PatientRecord, visit: Visit, before: readonly EarlierMeasure[], policy: Policy): Observation[] {
  const own = (visit.measures ?? []).flatMap((taken) => {
    const measure = measureTaken(taken);
    return measure ? [observed(record, measure, taken, policy)] : [];
  });
  const then = before.flatMap((earlier) => {
    const measure = measureTaken(earlier.taken);
    return measure ? [carried(record, measure, earlier, visit.day, policy)] : [];
  });
  return [...bodyOf(record, visit, policy), ...own, ...then];
}

/** The joint law of the figures: usual people, and what each figure and each side has by itself. Undefined where it cannot be worked out. */
export function jointlyExpected(
  record: PatientRecord,
  day: CalendarDay,
  observations: readonly Observation[],
  usual: UsualBody = usualBody(record, day),
): JointFigures | undefined {
  const variables = [...new Set(observations.map(({ variable }) => variable))];
  const place = new Map(variables.map((variable, index) => [variable, index]));
  const own = new Map(observations.flatMap((one) => (one.own ? [[one.variable, ownLaw(one.own)] as const] : [])));
  const means = variables.map((one) => own.get(one)?.mean ?? usual.mean(one));
  const together = (one: string, other: string) => {
    const law = own.get(one);
    if (law || own.has(other)) return law && one === other ? law.sd ** 2 : 0;
    return usual.covariance(one, other);
  };
  const covariances = variables.map((one, row) => variables.slice(0, row + 1).map((other) => together(one, other)));
  const covariance = (one: number, other: number) => covariances[Math.max(one, other)]?.[Math.min(one, other)] ?? 0;
  const places = observations.map(({ variable }) => place.get(variable) as number);
  return jointFigures(
    observations.map(({ log }) => log),
    places.map((at) => means[at] as number),
    observations.map((one, row) =>
      observations.map((other, column) => {
        const sameSide = one.variable === other.variable && one.side === other.side ? one.sideSd * other.sideSd : 0;
        return covariance(places[row] as number, places[column] as number) + sameSide + (row === column ? one.ownSd ** 2 : 0);
      }),
    ),
  );
}

/** A clinic's range as a law of the logarithm: its edges are the 1st and 99th percentile (2.326 SD), by itself and beside nothing else. Clinic default. */
function ownLaw({ lowMm, highMm }: OwnMeasure): { readonly mean: number; readonly sd: number } {
  return { mean: Math.log(lowMm * highMm) / 2, sd: Math.log(highMm / lowMm) / (2 * 2.326) };
}

function bodyOf(record: PatientRecord, visit: Visit, policy: Policy): Observation[] {
  const growing = daysBetween(record.born, visit.day) < policy.grownFromYears * 365.25;
  const { heightMm, weightKg } = bodyAt(record.visits, visit.day, growing);
  const on = (day: CalendarDay | undefined, measure: 'height' | 'weight') => record.visits.find((one) => one.day === day && one[measure]);
  const of = (variable: string, value: number, ownSd: number, typed: TypedFigure | undefined): Observation => ({
    variable,
    side: 'middle',
    log: Math.log(value),
    ownSd,
    sideSd: 0,
    today: undefined,
    typed,
  });
  const height = on(heightMm?.day, 'height')?.height;
  const weight = on(weightKg?.day, 'weight')?.weight;
  return [
    ...(heightMm
      ? [of('height', heightMm.value, policy.heightReadingSdMm / heightMm.value, height ? heightFigure(height) : undefined)]
      : []),
    ...(weightKg ? [of('weight', weightKg.value, policy.weightReadingSd, weight ? weightFigure(weight) : undefined)] : []),
  ];
}

function spreadOf(record: PatientRecord, { kind }: Measure, { part, side }: NamedMeasure) {
  if (part === 'residual-limb') return MEASURE_SPREAD.residual;
  const isGirth = kind === 'girth' || kind === 'breadth';
  const affected = isGirth && record.affectedParts?.some((one) => one.part === part && one.side === side);
  return affected ? MEASURE_SPREAD.affected : isGirth ? MEASURE_SPREAD.girth : MEASURE_SPREAD.length;
}

/**
 * How far a figure usually changes between two visits so many years apart beyond growth, SD of the logarithm.
 * Example: a spread of 0.02 a visit stays 0.02 within a year and is 0.04 after four.
 */
export function usualChangeSd(record: PatientRecord, measure: Measure, taken: NamedMeasure, years: number): number {
  return spreadOf(record, measure, taken).change * Math.max(1, Math.sqrt(years));
}

function observed(record: PatientRecord, measure: Measure, taken: NamedMeasure, policy: Policy): Observation {
  const value = mm(taken.length.nm);
  const spread = spreadOf(record, measure, taken);
  return {
    variable: measure.id,
    side: taken.side,
    log: Math.log(value),
    ownSd: (measure.tapeSdMm * Math.sqrt(policy.errorScale)) / value,
    sideSd: taken.side === 'middle' ? (spread === MEASURE_SPREAD.affected ? spread.side : 0) : spread.side / Math.SQRT2,
    today: taken,
    typed: heightFigure(taken.length),
    ...withOwn(measure),
  };
}

/**
 * Whether a figure says the same as an earlier one of its measure and side: within so many SDs of two readings, growth and usual change.
 */
export function saysTheSame(record: PatientRecord, now: EarlierMeasure, then: EarlierMeasure, policy: Policy): boolean {
  const measure = measureTaken(now.taken);
  if (!measure) return false;
  const [today, before] = [observed(record, measure, now.taken, policy), carried(record, measure, then, now.day, policy)];
  return Math.abs(today.log - before.log) < policy.bodySlipSds * Math.hypot(today.ownSd, before.ownSd);
}

/** A figure of an earlier visit as it should be today: grown, and as uncertain as what may have changed since. */
function carried(record: PatientRecord, measure: Measure, { day, taken }: EarlierMeasure, today: CalendarDay, policy: Policy): Observation {
  const then = observed(record, measure, taken, policy);
  const [from, to] = [day, today].map((one) => daysBetween(record.born, one) / 365.25) as [number, number];
  const growth = expectedGrowth(measure, record.sex, from, to, mm(taken.length.nm));
  const change = usualChangeSd(record, measure, taken, to - from);
  return {
    ...then,
    log: then.log + Math.log(growth.ratio),
    ownSd: Math.hypot(then.ownSd, change, growth.sd),
    today: undefined,
    typed: undefined,
  };
}
