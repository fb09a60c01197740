import type { JointFigures } from '../body-model/given-the-others';
import type { UsualBody } from '../body-model/usual-body';
import { SLIP_WORDS } from '../ladder/slip';
import type { Policy } from '../limits/policy';
import { type Measure, measureInWords, type OwnMeasure } from '../parts/measure';
import { measureTaken } from '../parts/own-measure';
import type { NamedMeasure, PatientRecord, Visit } from '../record/patient-record';
import { showDay } from '../units/calendar-day';
import { capitalized } from '../units/capitalized';
import { mm, type TypedLength } from '../units/length';
import { showLengthWithUnit } from '../units/show-length';
import { type Evidence, figureEvidence } from './figure-evidence';
import type { MeasureDoubt } from './measure-doubt';
import { type EarlierMeasure, jointlyExpected, type Observation, observationsOf } from './measure-observations';
import { sumDoubts } from './sum-checks';

/**
 * Every question that the named measures of one visit raise, by one joint law: the last visit, the other side, height and weight, and all
 * other measures of the day, as far as surveys know how they go together.
 *
 * A measure is asked about where it is wrong with a probability of `wrongFigureProbability` or more (`figureEvidence`, what all others
 * expect of it), and lends no weight against its neighbours; a height or weight that is itself the odd one is left out without a question
 * here (it has its own). Sum checks come last and only about measures
 * that are not asked about already.
 * Shape: a record, a visit of it, the last trusted figure of each measure, the policy; at most one question a measure.
 * Source: Bayes' theorem; `MEASURE_LIMITS`. Example: hand girth 31.2 cm, height 175 cm: "Left hand girth: 31.2 cm or 21.2 cm?".
 */
export function measureDoubts(
  record: PatientRecord,
  visit: Visit,
  before: readonly EarlierMeasure[],
  policy: Policy,
  usual?: UsualBody,
): MeasureDoubt[] {
  const observations = observationsOf(record, visit, before, policy);
  const all = jointlyExpected(record, visit.day, observations, usual);
  if (!all) return [];
  const odd = crossExaminedFigures(observations, all, policy);
  const asked = [...odd].flatMap(([index, { evidence, expectedMm }]) => {
    const taken = observations[index]?.today;
    const measure = taken && measureTaken(taken);
    return taken && measure ? [inWords(taken, measure, evidence, expectedMm, before, visit)] : [];
  });
  const trusted = observations.flatMap(({ today }, index) => (today && !odd.has(index) ? [today] : []));
  const isOut = (variable: string) => observations.some((one, index) => one.variable === variable && odd.has(index));
  const height = isOut('height') ? null : visit.height;
  const sums = sumDoubts(record, visit, trusted, height, apartOf(observations, without(all, [...odd.keys()])), policy);
  const ranges = outsideOwnRange(visit, new Set([...asked, ...sums].map(({ taken }) => taken)));
  const soFar = new Set([...asked, ...sums, ...ranges].map(({ taken }) => taken));
  const twice = (visit.measures ?? []).flatMap((taken) => (soFar.has(taken) ? [] : takenTwice(taken, policy)));
  return [...asked, ...sums, ...ranges, ...twice];
}

/** Figures of a clinic's own measures outside the range that the clinic gave them, where nothing else asks about them. */
function outsideOwnRange(visit: Visit, asked: ReadonlySet<NamedMeasure>): MeasureDoubt[] {
  return (visit.measures ?? []).flatMap((taken): MeasureDoubt[] => {
    const measure = measureTaken(taken);
    const lengthMm = mm(taken.length.nm);
    if (!measure?.own || asked.has(taken) || (lengthMm >= measure.own.lowMm && lengthMm <= measure.own.highMm)) return [];
    const shown = (length: number) => showLengthWithUnit(length, taken.length.unit);
    const name = capitalized(measureInWords(measure, taken.side));
    return [{ taken, kind: 'own-range', message: `${name}: ${shown(lengthMm)}? ${ownRangeInWords(measure.own, shown)}` }];
  });
}

function ownRangeInWords({ lowMm, highMm }: OwnMeasure, shown: (lengthMm: number) => string): string {
  return `This clinic expects ${shown(lowMm)} to ${shown(highMm)}.`;
}

/** Two measurings of one measure by one hand seldom differ by more than so many SDs of two readings. Clinic default. */
const TWICE_SDS = 3;

function mostApartMm(measure: Measure, errorScale: number): number {
  return TWICE_SDS * Math.SQRT2 * measure.tapeSdMm * Math.sqrt(errorScale);
}

/** Whether two measurings of a measure differ by more than two readings of it do, at the clinic's scale of error. Example: two readings alike → false. */
export function isTwiceApart(measure: Measure, first: TypedLength, again: TypedLength, errorScale = 1): boolean {
  return Math.abs(mm(again.nm) - mm(first.nm)) > mostApartMm(measure, errorScale);
}

/** The second measuring offered in place of the first, where they lie further apart than two readings do. */
function takenTwice(taken: NamedMeasure, policy: Policy): MeasureDoubt[] {
  const measure = measureTaken(taken);
  if (!measure || !taken.again) return [];
  const [first, second] = [mm(taken.length.nm), mm(taken.again.nm)];
  if (!isTwiceApart(measure, taken.length, taken.again, policy.errorScale)) return [];
  const most = mostApartMm(measure, policy.errorScale);
  const shown = (lengthMm: number) => showLengthWithUnit(lengthMm, taken.length.unit, 16);
  const name = capitalized(measureInWords(measure, taken.side));
  const message = `${name}: ${shown(first)} or ${shown(second)}? The two measurings differ by ${shown(Math.abs(second - first))}; those of one place seldom differ by more than ${shown(most)}.`;
  return [{ taken, kind: 'taped-twice', message, wouldFitMm: second }];
}

/** Why a figure is odd, and what all figures that are not expect in its place. */
type Odd = { readonly evidence: Evidence; readonly expectedMm: number };

/**
 * Heights and weights have questions of their own (`record-body-doubts`), and those in doubt are not here: one in ten of their slips is
 * left among them. Clinic default.
 */
const PASSED = 0.1;

/**
 * The figures that are wrong with the probability from which on to ask, each beside all those that are not: found one by one, the likeliest
 * first, then each looked at once more without the others, so that one that only looked odd beside a slip is let go.
 */
function crossExaminedFigures(observations: readonly Observation[], all: JointFigures, policy: Policy): ReadonlyMap<number, Odd> {
  const least = Math.log(policy.wrongFigureProbability / (1 - policy.wrongFigureProbability));
  const oddAmong = (joint: JointFigures, index: number): Odd | undefined => {
    const one = observations[index];
    if (!one?.typed) return undefined;
    const expected = joint.expected(index);
    const evidence = figureEvidence(one.typed, expected, one.today ? policy.wrongFigureShare : policy.wrongFigureShare * PASSED);
    return evidence.logOdds > least ? { evidence, expectedMm: Math.exp(expected.mean) } : undefined;
  };
  const found = new Map<number, Odd>();
  for (let joint = all; ; ) {
    let worst: { readonly index: number; readonly odd: Odd } | undefined;
    for (const index of observations.keys()) {
      const odd = found.has(index) ? undefined : oddAmong(joint, index);
      if (odd && (!worst || odd.evidence.logOdds > worst.odd.evidence.logOdds)) worst = { index, odd };
    }
    if (!worst) break;
    found.set(worst.index, worst.odd);
    joint = joint.without(worst.index);
  }
  for (const index of found.size > 1 ? [...found.keys()] : []) {
    const others = [...found.keys()].filter((other) => other !== index);
    const odd = oddAmong(without(all, others), index);
    if (odd) found.set(index, odd);
    else found.delete(index);
  }
  return found;
}

function without(joint: JointFigures, out: readonly number[]): JointFigures {
  return out.reduce((rest, index) => rest.without(index), joint);
}

/** How far a measure lies from what the others expect, in SDs. */
function apartOf(observations: readonly Observation[], joint: JointFigures): (taken: NamedMeasure) => number {
  return (taken) => {
    const index = observations.findIndex(({ today }) => today === taken);
    if (index < 0) return 0;
    const { mean, sd } = joint.expected(index);
    return Math.abs((observations[index] as Observation).log - mean) / sd;
  };
}

function inWords(
  taken: NamedMeasure,
  measure: Measure,
  { slip }: Evidence,
  expectedMm: number,
  before: readonly EarlierMeasure[],
  visit: Visit,
): MeasureDoubt {
  const shown = (lengthMm: number) => showLengthWithUnit(lengthMm, taken.length.unit);
  const name = capitalized(measureInWords(measure, taken.side));
  const last = before.find((one) => one.taken.measure === taken.measure && one.taken.side === taken.side);
  const other = visit.measures?.find((one) => one !== taken && one.measure === taken.measure);
  const reason = last
    ? `On ${showDay(last.day)} it was ${shown(mm(last.taken.length.nm))}, and about ${shown(expectedMm)} is expected.`
    : other
      ? `The ${other.side} one is ${shown(mm(other.length.nm))}, and about ${shown(expectedMm)} is expected.`
      : measure.own
        ? ownRangeInWords(measure.own, shown)
        : `By the other figures of the visit about ${shown(expectedMm)} is expected.`;
  const own = shown(mm(taken.length.nm));
  const question = slip ? `${name}: ${own} or ${shown(slip.value)}?` : `${name}: ${own}?`;
  return {
    taken,
    kind: slip?.kind ?? (last ? 'last-visit' : other ? 'other-side' : 'other-measures'),
    message: [question, reason, (slip && SLIP_WORDS[slip.kind]) ?? ''].join(' ').trim(),
    ...(slip ? { wouldFitMm: slip.value } : {}),
  };
}
