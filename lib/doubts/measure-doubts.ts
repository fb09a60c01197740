import type { JointFigures } from '../body-model/given-the-others';
import type { UsualBody } from '../body-model/usual-body';
import { SLIP_WORDS } from '../ladder/slip';
import type { Policy } from '../limits/policy';
import { measureOf } from '../parts/catalogue';
import { type Measure, measureInWords } from '../parts/measure';
import type { NamedMeasure, PatientRecord, Visit } from '../record/patient-record';
import { showDay } from '../units/calendar-day';
import { capitalized } from '../units/capitalized';
import { mm } from '../units/length';
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
 * expect of it). The likeliest is asked about first and then left out, so that one slip lends no weight against its neighbours; a height
 * or weight that is itself the odd one is left out without a question here (it has its own). Sum checks come last and only about measures
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
  const asked: MeasureDoubt[] = [];
  const out = new Set<number>();
  let joint = jointlyExpected(record, visit.day, observations, usual);
  while (joint) {
    const odd = oddest(observations, joint, out, policy);
    if (!odd) break;
    const { taken, measure, evidence, expectedMm } = odd;
    if (taken && measure) asked.push(inWords(taken, measure, evidence, expectedMm, before, visit));
    out.add(odd.index);
    joint = joint.without(odd.index);
  }
  const trusted = observations.flatMap(({ today }, index) => (today && !out.has(index) ? [today] : []));
  if (!joint) return asked;
  const isOut = (variable: string) => observations.some((one, index) => one.variable === variable && out.has(index));
  const height = isOut('height') ? null : visit.height;
  return [...asked, ...sumDoubts(record, visit, trusted, height, apartOf(observations, joint), policy)];
}

type Odd = {
  readonly index: number;
  readonly taken: NamedMeasure | undefined;
  readonly measure: Measure | undefined;
  readonly evidence: Evidence;
  readonly expectedMm: number;
};

/**
 * Heights and weights have questions of their own (`record-body-doubts`), and those in doubt are not here: one in ten of their slips is
 * left among them. Clinic default.
 */
const PASSED = 0.1;

/** The figure that is wrong most likely of those that are so with the probability from which on to ask. */
function oddest(observations: readonly Observation[], joint: JointFigures, out: ReadonlySet<number>, policy: Policy): Odd | undefined {
  const least = Math.log(policy.wrongFigureProbability / (1 - policy.wrongFigureProbability));
  let worst: Odd | undefined;
  observations.forEach(({ today: taken, variable, typed }, index) => {
    if (!typed || out.has(index)) return;
    const expected = joint.expected(index);
    const evidence = figureEvidence(typed, expected, taken ? policy.wrongFigureShare : policy.wrongFigureShare * PASSED);
    if (evidence.logOdds <= least || (worst && evidence.logOdds <= worst.evidence.logOdds)) return;
    worst = { index, taken, measure: taken && measureOf(variable), evidence, expectedMm: Math.exp(expected.mean) };
  });
  return worst;
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
