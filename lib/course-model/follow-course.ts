import { type Belief, beliefOf, introduce, observe, renew, widen, withUnknown } from './belief';
import type { CourseAt, CourseTerms, History, LimbLook, StepKind, VisitLook } from './course';

/** How the prior of a step is shared among what may have changed. Clinic default. */
const KIND_SHARES: Readonly<Record<StepKind, number>> = { whole: 0.5, far: 0.25, near: 0.25 };
/** A history lighter than this against the heaviest gets no further steps, ln. */
const TOO_LIGHT = 9;
/** So many of the heaviest histories get a further step at a visit. */
const PARENTS = 4;

/** A history while it is followed. */
type Path = { readonly belief: Belief; readonly visits: readonly number[]; readonly kinds: readonly StepKind[]; score: number };

/** Where each unknown stands in a belief. */
type Layout = { readonly levels: readonly (readonly number[])[]; readonly weight: number; readonly day: number; readonly first: number };

/**
 * One limb, one model: what is believed at each visit from all visits up to it, of every history of steps worth keeping.
 *
 * y(i,p) = level(limb,p) + body(i) + drift(limb,p,i) + Σ steps ≤ i on p + day(i) + habits(i) + error(i,p), p the far or the near part.
 * Levels are flat; body(i) = a₁ lnW + a₂ lnH + a random walk common to all limbs; drifts are random walks; a step is N(0, τ²) on both parts
 * or on one of the judged limb (limb 0). All is Gaussian given the steps: each history is a recursive least-squares fit with its evidence,
 * so a further visit costs the same however many there were. Prior of k steps at n places: odds^k (1 − odds share) / C(n, k), times the
 * share of each kind; the heaviest histories are carried on, and the one without steps always.
 * Shape: visits in order of time; one answer a visit. Example: tests/lib/course-model holds the reference cases to nine digits.
 * Source: Gauss–Markov with a diffuse start; Kass and Raftery 1995, Bayes factors, JASA 90:773; multiple hypotheses after Reid 1979.
 */
export function followCourse(visits: readonly VisitLook[], terms: CourseTerms): readonly CourseAt[] {
  const layout = layoutOf(terms);
  const stride = layout.first + terms.mostSteps;
  const known = layout.levels.map((levels) => levels.map(() => false));
  const priors = new Array<number>(layout.first).fill(0);
  priors[layout.weight] = terms.lnWeightVariance;
  priors[layout.weight + 1] = terms.lnHeightVariance;
  terms.habits.forEach((variance, habit) => {
    priors[layout.day + 1 + habit] = variance;
  });
  let paths: Path[] = [{ belief: beliefOf(priors, stride), visits: [], kinds: [], score: 0 }];
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
      paths = [...paths, ...stepped(paths, index, seen, terms)];
    }
    const looks = visit.limbs.map((look) => looksOf(look, visit, known, layout, stride));
    for (const path of paths) for (const look of looks) take(path, look, layout.first);
    for (const { limb, girths } of visit.limbs)
      girths.forEach((girth, part) => {
        const levels = known[limb];
        if (levels && girth !== null) levels[part] = true;
      });
    for (const path of paths) path.score = path.belief.evidence + lnPrior(path.kinds, places, terms);
    const answer = answerOf(paths, index, places, layout, visit, terms);
    const [none, ...others] = paths as [Path, ...Path[]];
    paths = [none, ...others.sort((one, other) => other.score - one.score).slice(0, terms.kept)];
    return answer;
  });
}

function layoutOf(terms: CourseTerms): Layout {
  let next = 0;
  const levels = terms.parts.map((parts) => Array.from({ length: parts }, () => next++));
  return { levels, weight: next, day: next + 3, first: next + 4 + terms.habits.length };
}

/** Time goes by: drifts wander, the day begins anew. The common drift stands after the two exponents. */
function pass(belief: Belief, years: number, dayVariance: number, layout: Layout, terms: CourseTerms): void {
  for (const [first, second] of layout.levels as readonly [number, number?][]) {
    widen(belief, first, first, years * (terms.ownDrift + terms.partDrift));
    if (second === undefined) continue;
    widen(belief, second, second, years * (terms.ownDrift + terms.partDrift));
    widen(belief, first, second, years * terms.ownDrift);
  }
  widen(belief, layout.weight + 2, layout.weight + 2, years * terms.commonDrift);
  renew(belief, layout.day, dayVariance);
}

function stepped(paths: readonly Path[], index: number, seen: (part: number) => boolean, terms: CourseTerms): Path[] {
  const heaviest = Math.max(...paths.map(({ score }) => score));
  const parents = [...paths]
    .filter(({ visits, score }) => visits.length < terms.mostSteps && (visits.length === 0 || score > heaviest - TOO_LIGHT))
    .sort((one, other) => other.score - one.score)
    .filter(({ visits }, rank) => rank < PARENTS || visits.length === 0);
  const kinds: readonly StepKind[] = terms.parts[0] === 1 || !seen(0) || !seen(1) ? ['whole'] : ['whole', 'far', 'near'];
  return parents.flatMap((parent) =>
    kinds.map((kind) => ({
      belief: withUnknown(parent.belief, terms.stepVariance),
      visits: [...parent.visits, index],
      kinds: [...parent.kinds, kind],
      score: parent.score,
    })),
  );
}

/** The looks of one limb, made independent of each other: the near part less its share of the far part's error. */
type Look = {
  readonly h: Float64Array;
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
  const base = (part: number): Float64Array => {
    const h = new Float64Array(stride);
    h[levels[part] as number] = 1;
    h[layout.weight] = visit.lnWeight;
    h[layout.weight + 1] = visit.lnHeight;
    h[layout.weight + 2] = 1;
    h[layout.day] = 1;
    for (const habit of visit.habits) h[layout.day + 1 + habit] = 1;
    return h;
  };
  const [far, near] = look.girths;
  const found: Look[] = [];
  const at = (row: number, column: number): number => look.covariance[row]?.[column] as number;
  const isNew = (part: number): boolean => !known[look.limb]?.[part];
  if (far != null)
    found.push({
      h: base(0),
      y: far,
      variance: at(0, 0),
      level: levels[0] as number,
      isNew: isNew(0),
      far: judged,
      near: 0,
    });
  if (near != null) {
    const share = far == null ? 0 : at(0, 1) / at(0, 0);
    const h = base(1);
    if (far != null) {
      const other = base(0);
      for (let unknown = 0; unknown < stride; unknown++) h[unknown] = (h[unknown] as number) - share * (other[unknown] as number);
    }
    const variance = at(1, 1) - share * (far == null ? 0 : at(0, 1));
    found.push({
      h,
      y: near - share * (far ?? 0),
      variance,
      level: levels[1] as number,
      isNew: isNew(1),
      far: -share * judged,
      near: judged,
    });
  }
  return found;
}

function take(path: Path, looks: readonly Look[], first: number): void {
  for (const look of looks) {
    path.kinds.forEach((kind, step) => {
      look.h[first + step] = (kind === 'near' ? 0 : look.far) + (kind === 'far' ? 0 : look.near);
    });
    if (look.isNew) introduce(path.belief, look.level, look.h, look.y, look.variance);
    else observe(path.belief, look.h, look.y, look.variance);
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
): CourseAt {
  const heaviest = paths.reduce((best, path) => (path.score > best.score ? path : best));
  const total = paths.reduce((sum, { score }) => sum + Math.exp(score - heaviest.score), 0);
  const { first, weight } = layout;
  const histories = paths.map(({ belief, visits, kinds, score }): History => {
    const sizes = visits.map((_, step) => belief.mean[first + step] as number);
    const covariance = visits.flatMap((_, row) =>
      visits.map((__, column) => belief.covariance[(first + row) * belief.stride + first + column] as number),
    );
    return { visits, kinds, sizes, covariance, weight: Math.exp(score - heaviest.score) / total };
  });
  const { mean } = heaviest.belief;
  const [none] = paths as [Path];
  const fresh = histories.find(({ visits, kinds }) => visits.length === 1 && visits[0] === index && kinds[0] === 'whole');
  const information = fresh ? 1 / (fresh.covariance[0] as number) - 1 / terms.stepVariance : 0;
  return {
    histories,
    common: (mean[weight] as number) * visit.lnWeight + (mean[weight + 1] as number) * visit.lnHeight + (mean[weight + 2] as number),
    newStepVariance: information > 0 ? 1 / information : undefined,
    stepPlaces,
    strain: none.belief.strain,
    degrees: none.belief.degrees,
    leastStrain: heaviest.belief.strain,
    leastDegrees: heaviest.belief.degrees - heaviest.kinds.length,
  };
}
