import { judged } from '@/lib/analysis/analyse-patient';
import type { LimbKind } from '@/lib/ladder/limb';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import type { JudgedChange } from '@/lib/trend/judged-change';
import { limbCourse } from '@/lib/trend/limb-course';
import { rememberedLooks } from '@/lib/trend/limb-looks';
import { limbSeries } from '@/lib/trend/limb-series';
import { rememberedChanges } from '@/lib/trend/remembered-changes';
import type { Verdict } from '@/lib/trend/verdict';
import type { LimbShape } from './dense-limb';
import { anatomyOf } from './limb-shape';
import { type Course, type Person, person } from './person';
import { seeded } from './random';
import { ordinaryVisit, type SetUp, type TrueVisit, tapedPerson } from './taped-person';

/** Pairs of visits of one kind, whose truth is known. */
export type PairScenario = {
  readonly name: string;
  readonly limb: LimbKind;
  readonly course: Course;
  readonly setUp: SetUp;
  /** Girth swelling of the left limb at the second visit, as a share, by anatomical place. */
  readonly swelling?: (place: number) => number;
  /** What else is unusual at the second visit. */
  readonly second?: Partial<TrueVisit>;
  /** Another measurer at the second visit: both visits' tension then varies by 1 %. */
  readonly otherMeasurer?: boolean;
};

/** What the engine said of a scenario's pairs, counted; shares of 1. */
export type PairTally = {
  readonly pairs: number;
  readonly verdicts: Readonly<Record<Verdict, number>>;
  readonly findings: Readonly<Record<string, number>>;
  /** Pairs said to have changed in one part; and those called more or less than expected. */
  readonly uneven: number;
  readonly alarmed: number;
  /** SD of (estimate − truth) of unexplained ln girth, mean stated SD, SD of their ratio, and how often 1.96 stated SD hold the truth. */
  readonly errorSd: number;
  readonly statedSd: number;
  readonly zSd: number;
  readonly covered: number;
  /** How often the smallest real change holds the error of the volume change. */
  readonly volumeCovered: number;
};

/** Runs a scenario on limbs of a pool, from a seed. */
export function pairCohort(scenario: PairScenario, pool: readonly LimbShape[], pairs: number, seed: number): PairTally {
  const random = seeded(seed);
  const verdicts: Record<Verdict, number> = {
    'no-clear-change': 0,
    'as-expected': 0,
    'more-than-expected': 0,
    'less-than-expected': 0,
    'cannot-tell': 0,
  };
  const findings: Record<string, number> = {};
  const sums = { error: 0, stated: 0, z: 0, covered: 0, explained: 0, volumeCovered: 0, measured: 0, uneven: 0, alarmed: 0 };
  for (let pair = 0; pair < pairs; pair++) {
    const someone = person(scenario.course, random.pick(pool), random);
    const days = 30 + Math.floor(170 * random.uniform());
    const visits = visitsOf(scenario, days);
    const { record, zerosMm } = tapedPerson(someone, visits, scenario.setUp, random);
    const series = limbSeries(record, DEFAULT_POLICY);
    const left = series.find((one) => one.side === 'left');
    const [earlier, later] = left?.visits ?? [];
    if (!left || !earlier || !later) throw new Error('a pair without its ladders');
    const witness = series.find((one) => one.side === 'right');
    const between = rememberedChanges(DEFAULT_POLICY);
    const said = judged(
      earlier,
      later,
      limbCourse(left, witness, DEFAULT_POLICY, rememberedLooks(DEFAULT_POLICY, between)),
      witness,
      DEFAULT_POLICY,
      between,
    );
    if (isNoAnswer(said)) throw new Error(said.noAnswer);
    verdicts[said.verdict] += 1 / pairs;
    const beyond = said.verdict === 'more-than-expected' || said.verdict === 'less-than-expected';
    if (said.found && said.found.part !== 'whole') sums.uneven += 1;
    if (beyond) sums.alarmed += 1;
    const finding = said.change.shift?.finding ?? 'none';
    findings[finding] = (findings[finding] ?? 0) + 1 / pairs;
    const truth = trueChange(someone, visits, zerosMm[0]?.[0] ?? 0, said, scenario);
    sums.measured += 1;
    if (Math.abs(said.change.measured.volume.ratio / truth.volumeRatio - 1) <= said.smallestRealChange) sums.volumeCovered += 1;
    if (!said.explained) continue;
    const error = Math.log(said.explained.unexplainedRatio) - Math.log(truth.swellingRatio);
    sums.explained += 1;
    sums.error += error ** 2;
    sums.stated += said.explained.sd;
    sums.z += (error / said.explained.sd) ** 2;
    if (Math.abs(error) <= 1.96 * said.explained.sd) sums.covered += 1;
  }
  const { explained } = sums;
  return {
    pairs,
    verdicts,
    findings,
    uneven: sums.uneven / pairs,
    alarmed: sums.alarmed / pairs,
    errorSd: Math.sqrt(sums.error / explained),
    statedSd: sums.stated / explained,
    zSd: Math.sqrt(sums.z / explained),
    covered: sums.covered / explained,
    volumeCovered: sums.volumeCovered / sums.measured,
  };
}

function visitsOf(scenario: PairScenario, days: number): [TrueVisit, TrueVisit] {
  const tensionSd = scenario.otherMeasurer ? 0.01 : 0.004;
  const swelling: TrueVisit['swelling'] = (side, place) => (side === 'left' ? (scenario.swelling?.(place) ?? 0) : 0);
  return [
    { ...ordinaryVisit(0), tensionSd },
    { ...ordinaryVisit(days), tensionSd, measurer: scenario.otherMeasurer ? 'B' : 'A', swelling, ...scenario.second },
  ];
}

/**
 * What truly happened over the stretch that the engine compared: volume ratio of the same anatomy, and the part of mean girth that is
 * swelling. By slices of 2 mm on the dense limb, no frusta.
 */
function trueChange(someone: Person, visits: readonly TrueVisit[], zeroMm: number, said: JudgedChange, scenario: PairScenario) {
  const [first, second] = visits as [TrueVisit, TrueVisit];
  const { shape } = someone;
  const from = said.change.measured.shared.earlier.fromMm + zeroMm;
  const to = said.change.measured.shared.earlier.toMm + zeroMm;
  const before = someone.stretchOn(first.day);
  const grown = someone.stretchOn(second.day) / before;
  const sums = { before: 0, after: 0, swollen: 0 };
  const slices = Math.max(Math.round((to - from) / 2), 1);
  for (let slice = 0; slice < slices; slice++) {
    const at = (from + ((slice + 0.5) * (to - from)) / slices) / before;
    const place = anatomyOf(shape, at);
    const then = shape.girthMm(at) * someone.girthOn('left', place, first.day);
    const healthy = shape.girthMm(at) * someone.girthOn('left', place, second.day) * second.postureGirth;
    const now = healthy * (1 + (scenario.swelling?.(place) ?? 0));
    sums.before += then ** 2;
    sums.after += now ** 2;
    sums.swollen += (then * (1 + (scenario.swelling?.(place) ?? 0))) ** 2;
  }
  return {
    volumeRatio: (grown * sums.after) / sums.before / second.postureGirth ** 2,
    swellingRatio: Math.sqrt(sums.swollen / sums.before),
  };
}
