import { type Belief, beliefOf, introduce, observe, renew, type Weights, widen, withUnknown } from './belief';
import type { CourseAt, CourseTerms, History, LimbLook, StepKind, VisitLook } from './course';

/** How the prior of a step is shared among what may have changed. Clinic default. */
const KIND_SHARES: Readonly<Record<StepKind, number>> = { whole: 0.5, far: 0.25, near: 0.25 };
/** A history lighter than this against the heaviest gets no further steps, ln. */
const TOO_LIGHT = 9;
/** So many of the heaviest histories get a further step at a visit. */
const PARENTS = 2;

/** A history while it is followed. */
type Path = { readonly belief: Belief; readonly visits: readonly number[]; readonly kinds: readonly StepKind[]; score: number };

/** Where each unknown stands in a belief; undefined for one that nothing hangs on. Steps come from `first` on. */
type Layout = {
  readonly levels: readonly (readonly number[])[];
  readonly weight: number | undefined;
  readonly height: number | undefined;
  readonly common: number | undefined;
  readonly day: number | undefined;
  readonly habits: number;
  readonly first: number;
};

/**
 * One limb, one model: what is believed at each visit from all visits up to it, of every history of steps worth keeping.
 *
 * y(i,p) = level(limb,p) + body(i) + drift(limb,p,i) + Σ steps ≤ i on p + day(i) + habits(i) + error(i,p), p the far or the near part.
 * Levels are flat; body(i) = a₁ lnW + a₂ lnH + a random walk common to all limbs; drifts are random walks; a step is N(0, τ²) on both parts
 * or on one of the judged limb (limb 0). All is Gaussian given the steps: each history is a recursive least-squares fit with its evidence,
 * so a further visit costs the same however many there were. Prior of k steps at n places: odds^k (1 − odds share) / C(n, k), times the
 * share of each kind; the heaviest histories are carried on, and the one without steps always.
 * Shape: visits in order of time; one answer a visit, of all but the newest without its histories where only that is wanted. Example: tests/lib/course-model holds the reference cases to nine digits.
 * Source: Gauss–Markov with a diffuse start; Kass and Raftery 1995, Bayes factors, JASA 90:773; multiple hypotheses after Reid 1979.
 */
export function followCourse(visits: readonly VisitLook[], terms: CourseTerms, newestOnly = false): readonly CourseAt[] {
  const layout = layoutOf(visits, terms);
  const stride = layout.first + terms.mostSteps;
  const known = layout.levels.map((levels) => levels.map(() => false));
  const priors = new Array<number>(layout.first).fill(0);
  if (layout.weight !== undefined) priors[layout.weight] = terms.lnWeightVariance;
  if (layout.height !== undefined) priors[layout.height] = terms.lnHeightVariance;
  terms.habits.forEach((variance, habit) => {
    priors[layout.habits + habit] = variance;
  });
  let paths: Path[] = [{ belief: beliefOf(priors, stride), visits: [], kinds: [], score: 0 }];
  const unneeded: Belief[] = [];
  let places = 0;
  let before = 0;
  return visits.map((visit, index) => {
    for (const { belief } of paths) pass(belief, visit.years - before, visit.dayVariance, layout, terms);
    before = visit.years;
    const own = visit.limbs.find(({ limb }) => limb === 0);
    const seen = (part: number): boolean => own?.girths[part] != null && known[0]?.[part] === true;
    const asked = visit.mayStep && (terms.parts[0] === 1 ? seen(0) : seen(0) || seen(1));
    if (asked) {
      places += 1;
      paths = [...paths, ...stepped(paths, index, seen, terms, unneeded)];
    }
    const looks = visit.limbs.map((look) => looksOf(look, visit, known, layout, stride));
    for (const path of paths) for (const look of looks) take(path, look, layout.first);
    for (const { limb, girths } of visit.limbs)
      girths.forEach((girth, part) => {
        const levels = known[limb];
        if (levels && girth !== null) levels[part] = true;
      });
    for (const path of paths) path.score = path.belief.evidence + lnPrior(path.kinds, places, terms);
    const answer = answerOf(paths, index, places, layout, visit, terms, newestOnly && index < visits.length - 1);
    const [none, ...others] = paths as [Path, ...Path[]];
    others.sort((one, other) => other.score - one.score);
    for (const { belief } of others.splice(terms.kept)) unneeded.push(belief);
    paths = [none, ...others];
    return answer;
  });
}

/** One limb alone has no drift or day in common with another: they stand in its own drift and its looks' covariance. */
function layoutOf(visits: readonly VisitLook[], terms: CourseTerms): Layout {
  let next = 0;
  const levels = terms.parts.map((parts) => Array.from({ length: parts }, () => next++));
  const one = (isUsed: boolean): number | undefined => (isUsed ? next++ : undefined);
  const several = terms.parts.length > 1;
  const weight = one(visits.some(({ lnWeight }) => lnWeight !== 0));
  const height = one(visits.some(({ lnHeight }) => lnHeight !== 0));
  const common = one(several);
  const day = one(several);
  return { levels, weight, height, common, day, habits: next, first: next + terms.habits.length };
}

/** Time goes by: drifts wander, the day begins anew. */
function pass(belief: Belief, years: number, dayVariance: number, layout: Layout, terms: CourseTerms): void {
  const own = terms.ownDrift + (layout.common === undefined ? terms.commonDrift : 0);
  for (const [first, second] of layout.levels as readonly [number, number?][]) {
    widen(belief, first, first, years * (own + terms.partDrift));
    if (second === undefined) continue;
    widen(belief, second, second, years * (own + terms.partDrift));
    widen(belief, first, second, years * own);
  }
  if (layout.common !== undefined) widen(belief, layout.common, layout.common, years * terms.commonDrift);
  if (layout.day !== undefined) renew(belief, layout.day, dayVariance);
}

function stepped(paths: readonly Path[], index: number, seen: (part: number) => boolean, terms: CourseTerms, unneeded: Belief[]): Path[] {
  const heaviest = Math.max(...paths.map(({ score }) => score));
  const parents = [...paths]
    .filter(({ visits, score }) => visits.length < terms.mostSteps && (visits.length === 0 || score > heaviest - TOO_LIGHT))
    .sort((one, other) => other.score - one.score)
    .filter(({ visits }, rank) => rank < PARENTS || visits.length === 0);
  const kinds: readonly StepKind[] = terms.parts[0] === 1 || !seen(0) || !seen(1) ? ['whole'] : ['whole', 'far', 'near'];
  return parents.flatMap((parent) =>
    kinds.map((kind) => ({
      belief: withUnknown(parent.belief, terms.stepVariance, unneeded.pop()),
      visits: [...parent.visits, index],
      kinds: [...parent.kinds, kind],
      score: parent.score,
    })),
  );
}

/** The looks of one limb, made independent of each other: the near part less its share of the far part's error. */
type Look = {
  readonly weights: Weights;
  /** How many of the weights are there before any step. */
  readonly fixed: number;
  readonly y: number;
  readonly variance: number;
  readonly level: number;
  readonly isNew: boolean;
  /** How much of a step on the far and on the near part is in it. */
  readonly far: number;
  readonly near: number;
};

function looksOf(look: LimbLook, visit: VisitLook, known: readonly (readonly boolean[])[], layout: Layout, stride: number): Look[] {
  const levels = layout.levels[look.limb] ?? [];
  const judged = look.limb === 0 ? 1 : 0;
  const alone = layout.day === undefined ? visit.dayVariance : 0;
  const at = (row: number, column: number): number => (look.covariance[row]?.[column] as number) + alone;
  const isNew = (part: number): boolean => !known[look.limb]?.[part];
  const [far, near] = look.girths;
  const found: Look[] = [];
  if (far != null) {
    const weights = weightsOf(levels[0] as number, undefined, 0, visit, layout, stride);
    found.push({
      weights,
      fixed: weights.count,
      y: far,
      variance: at(0, 0),
      level: levels[0] as number,
      isNew: isNew(0),
      far: judged,
      near: 0,
    });
  }
  if (near != null) {
    const share = far == null ? 0 : at(0, 1) / at(0, 0);
    const weights = weightsOf(levels[1] as number, levels[0] as number, share, visit, layout, stride);
    found.push({
      weights,
      fixed: weights.count,
      y: near - share * (far ?? 0),
      variance: at(1, 1) - share * (far == null ? 0 : at(0, 1)),
      level: levels[1] as number,
      isNew: isNew(1),
      far: -share * judged,
      near: judged,
    });
  }
  return found;
}

/** Level, body, day and habits as they stand in a part less a share of another part. */
function weightsOf(level: number, other: number | undefined, share: number, visit: VisitLook, layout: Layout, stride: number): Weights {
  const weights = { at: new Int32Array(stride), by: new Float64Array(stride), count: 0 };
  const rest = 1 - share;
  add(weights, level, 1);
  if (other !== undefined) add(weights, other, -share);
  if (layout.weight !== undefined) add(weights, layout.weight, rest * visit.lnWeight);
  if (layout.height !== undefined) add(weights, layout.height, rest * visit.lnHeight);
  if (layout.common !== undefined) add(weights, layout.common, rest);
  if (layout.day !== undefined) add(weights, layout.day, rest);
  for (const habit of visit.habits) add(weights, layout.habits + habit, rest);
  return weights;
}

function add(weights: Weights, at: number, by: number): void {
  if (by === 0) return;
  weights.at[weights.count] = at;
  weights.by[weights.count] = by;
  weights.count += 1;
}

function take({ belief, kinds }: Path, looks: readonly Look[], first: number): void {
  for (const look of looks) {
    const { weights } = look;
    weights.count = look.fixed;
    for (let step = 0; step < kinds.length; step++)
      add(weights, first + step, (kinds[step] === 'near' ? 0 : look.far) + (kinds[step] === 'far' ? 0 : look.near));
    if (look.isNew) introduce(belief, look.level, weights, look.y, look.variance);
    else observe(belief, weights, look.y, look.variance);
  }
}

function lnPrior(kinds: readonly StepKind[], places: number, terms: CourseTerms): number {
  let sum = 0;
  kinds.forEach((kind, step) => {
    const share = terms.parts[0] === 1 ? 1 : KIND_SHARES[kind];
    sum += Math.log(terms.stepOdds * share) + Math.log((step + 1) / (places - step));
  });
  return sum;
}

function answerOf(
  paths: readonly Path[],
  index: number,
  stepPlaces: number,
  layout: Layout,
  visit: VisitLook,
  terms: CourseTerms,
  inBrief: boolean,
): CourseAt {
  const heaviest = paths.reduce((best, path) => (path.score > best.score ? path : best));
  const total = paths.reduce((sum, { score }) => sum + Math.exp(score - heaviest.score), 0);
  const { first, weight, height, common } = layout;
  const histories = (inBrief ? [] : paths).map(({ belief, visits, kinds, score }): History => {
    const steps = visits.length;
    const sizes = new Array<number>(steps);
    const covariance = new Array<number>(steps * steps);
    for (let row = 0; row < steps; row++) {
      sizes[row] = belief.mean[first + row] as number;
      const start = (first + row) * belief.stride + first;
      for (let column = 0; column < steps; column++) covariance[row * steps + column] = belief.covariance[start + column] as number;
    }
    return { visits, kinds, sizes, covariance, weight: Math.exp(score - heaviest.score) / total };
  });
  const { mean } = heaviest.belief;
  const held = (unknown: number | undefined): number => (unknown === undefined ? 0 : (mean[unknown] as number));
  const [none] = paths as [Path];
  const fresh = histories.find(({ visits, kinds }) => visits.length === 1 && visits[0] === index && kinds[0] === 'whole');
  const information = fresh ? 1 / (fresh.covariance[0] as number) - 1 / terms.stepVariance : 0;
  return {
    histories,
    common: held(weight) * visit.lnWeight + held(height) * visit.lnHeight + held(common),
    newStepVariance: information > 0 ? 1 / information : undefined,
    stepPlaces,
    strain: none.belief.strain,
    degrees: none.belief.degrees,
    leastStrain: heaviest.belief.strain,
    leastDegrees: heaviest.belief.degrees - heaviest.kinds.length,
  };
}
