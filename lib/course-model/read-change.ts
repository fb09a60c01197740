import { cumulativeNormal } from '../statistics/normal';
import type { CourseAt, History, StepKind } from './course';

/** What the model says of a limb between two of its visits. Sizes are natural logarithms of girth. */
export type ChangeReading = {
  /** Probability of a change beyond what the body explains, 0 to 1; of one up and of one down. */
  readonly probability: number;
  readonly up: number;
  readonly down: number;
  /** Size of the change of mean girth if there was one, over all histories with a step, and its SD. */
  readonly size: number;
  readonly sd: number;
  /** Where, when (number of the first visit that has it), and the size there: of the most probable change. */
  readonly part: StepKind;
  readonly sinceVisit: number;
  readonly partSize: number;
  readonly partSd: number;
};

/** Two steps that nearly undo each other are no change: below this share of girth. Clinic default. */
const NO_CHANGE = 0.01;

/** The net change of one history over a window of visits. */
type Net = {
  readonly weight: number;
  readonly part: StepKind;
  readonly since: number;
  readonly size: number;
  readonly variance: number;
  readonly partSize: number;
  readonly partVariance: number;
  readonly up: number;
  readonly down: number;
};

/**
 * The change between an earlier visit and the one that `at` was worked out for, or one before that: one reading of the posterior.
 *
 * Probability: the weight of all histories with a step after the earlier visit (of those with several, the share that does not cancel).
 * Size: mean and SD over the same histories, Σ w (v + m²) − m̄². Undefined where no step was looked for in between.
 * Shape: the posterior, the number of the earlier visit, the share of mean girth that the far part has (0 to 1), the number of the later
 * visit (that of the posterior when none is named: what is known now of a change up to an earlier day).
 * Source: Bayesian model averaging (Kass and Raftery 1995). Example: two visits with 0 and 0.04, SD 0.012 each, steps of SD 0.05: probability 0.492.
 */
export function readChange(
  at: CourseAt,
  fromVisit: number,
  farShare: number,
  toVisit = Number.POSITIVE_INFINITY,
): ChangeReading | undefined {
  const nets = at.histories.flatMap((history) => netOf(history, fromVisit, toVisit, farShare));
  const total = nets.reduce((sum, { weight }) => sum + weight, 0);
  if (nets.length === 0) return undefined;
  const shareOf = (net: Net): number => (total > 0 ? net.weight / total : 1 / nets.length);
  let size = 0;
  let square = 0;
  let up = 0;
  let down = 0;
  for (const net of nets) {
    size += shareOf(net) * net.size;
    square += shareOf(net) * (net.variance + net.size ** 2);
    up += net.weight * net.up;
    down += net.weight * net.down;
  }
  const agrees = (net: Net): number => shareOf(net) * (up >= down ? net.up : net.down);
  const part = heaviest(nets, (net) => net.part, agrees);
  const there = nets.filter((net) => net.part === part);
  const sinceVisit = heaviest(there, (net) => net.since, agrees);
  const partTotal = there.reduce((sum, net) => sum + shareOf(net), 0) || 1;
  const partSize = there.reduce((sum, net) => sum + shareOf(net) * net.partSize, 0) / partTotal;
  const partSquare = there.reduce((sum, net) => sum + shareOf(net) * (net.partVariance + net.partSize ** 2), 0) / partTotal;
  return {
    probability: Math.min(up + down, 1),
    up,
    down,
    size,
    sd: Math.sqrt(Math.max(square - size ** 2, 0)),
    part,
    sinceVisit,
    partSize,
    partSd: Math.sqrt(Math.max(partSquare - partSize ** 2, 0)),
  };
}

function heaviest<T>(nets: readonly Net[], keyOf: (net: Net) => T, weightOf: (net: Net) => number): T {
  const weights = new Map<T, number>();
  for (const net of nets) weights.set(keyOf(net), (weights.get(keyOf(net)) ?? 0) + weightOf(net));
  return [...weights].reduce((best, one) => (one[1] > best[1] ? one : best))[0];
}

function netOf(history: History, fromVisit: number, toVisit: number, farShare: number): Net[] {
  const inside = history.visits.flatMap((visit, step) => (visit > fromVisit && visit <= toVisit ? [step] : []));
  const [only, ...more] = inside;
  if (only === undefined) return [];
  const far = inside.map((step) => (history.kinds[step] === 'near' ? 0 : 1));
  const near = inside.map((step) => (history.kinds[step] === 'far' ? 0 : 1));
  const mean = inside.map((_, index) => farShare * (far[index] as number) + (1 - farShare) * (near[index] as number));
  const whole = sumOf(history, inside, mean);
  const { weight } = history;
  if (more.length === 0) {
    const size = history.sizes[only] as number;
    const variance = history.covariance[only * history.visits.length + only] as number;
    const up = cumulativeNormal(size / Math.sqrt(variance));
    const part = history.kinds[only] as StepKind;
    return [{ weight, part, since: history.visits[only] as number, ...whole, partSize: size, partVariance: variance, up, down: 1 - up }];
  }
  const parts = [
    { part: 'far' as const, ...sumOf(history, inside, far) },
    { part: 'near' as const, ...sumOf(history, inside, near) },
  ];
  const [one, other] = parts as [(typeof parts)[0], (typeof parts)[1]];
  const alike = one.size * other.size > 0 && Math.min(Math.abs(one.size), Math.abs(other.size)) > NO_CHANGE;
  const found = alike ? { part: 'whole' as const, ...whole } : Math.abs(one.size) > Math.abs(other.size) ? one : other;
  const sd = Math.sqrt(found.variance);
  const way = inside.find((step) => (history.sizes[step] as number) * found.size > 0) ?? only;
  return [
    {
      weight,
      part: found.part,
      since: history.visits[way] as number,
      ...whole,
      partSize: found.size,
      partVariance: found.variance,
      up: cumulativeNormal((found.size - NO_CHANGE) / sd),
      down: cumulativeNormal((-found.size - NO_CHANGE) / sd),
    },
  ];
}

function sumOf(history: History, steps: readonly number[], by: readonly number[]): { readonly size: number; readonly variance: number } {
  let size = 0;
  let variance = 0;
  steps.forEach((row, index) => {
    size += (by[index] as number) * (history.sizes[row] as number);
    steps.forEach((column, second) => {
      variance += (by[index] as number) * (by[second] as number) * (history.covariance[row * history.visits.length + column] as number);
    });
  });
  return { size, variance };
}

/**
 * The smallest new change of a whole limb that would be said at a visit, as a logarithm of girth: probability above the clinic's limit.
 *
 * The Bayes factor of a step with estimate x, variance v is √(v/(v+τ²)) exp(½ x²/v · τ²/(v+τ²)); x where it reaches the odds asked for,
 * with one of n places to choose from. Undefined where no step was looked for.
 * Source: Jeffreys 1961, Theory of probability; closed form. Example: v = 2 · 0.012², τ = 0.05, odds 1 : 4, one place, limit ½: 0.0406.
 */
export function smallestChangeSaid(at: CourseAt, stepVariance: number, stepOdds: number, limit: number): number | undefined {
  const { newStepVariance: v, stepPlaces } = at;
  if (v === undefined || stepPlaces === 0) return undefined;
  const asked = Math.log((limit / (1 - limit)) * (stepPlaces / stepOdds)) + 0.5 * Math.log((v + stepVariance) / v);
  return Math.sqrt((Math.max(asked, 0) * 2 * v * (v + stepVariance)) / stepVariance);
}
