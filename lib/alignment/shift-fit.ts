import { type CubicPoint, cubicAt, type MonotoneCubic } from './monotone-cubic';

/** What the fit of a shift needs: where each later girth should lie on the earlier ruler, and that girth without what the body explains. */
export type ShiftData = {
  readonly earlier: MonotoneCubic;
  readonly placesMm: readonly number[];
  readonly girthsMm: readonly number[];
  /** 1 / SD of each difference, 1/mm. */
  readonly sureness: readonly number[];
};

/** A belief about the shift before looking at girths: normal, with what it costs to hold it (−2 ln prior odds). */
export type ShiftPrior = { readonly centreMm: number; readonly varianceMm2: number; readonly cost: number };

/** A fitted model: shift s, girth factor 1 + a, their variances, and the penalised robust deviance. */
export type ShiftModel = {
  readonly shiftMm: number;
  readonly factor: number;
  readonly shiftVariance: number;
  readonly factorVariance: number;
  readonly deviance: number;
};

const HUBER = 1.345;
const ROUNDS = 6;
/** Steps smaller than this change nothing that is shown: 0.02 mm of shift, a hundred-thousandth of girth. */
const SMALL_STEP = { shiftMm: 0.02, factor: 1e-5 } as const;

/**
 * Fits girth₂ = (1 + a) · girth₁(place + s) with Huber's loss and a normal prior on s, by Gauss–Newton with reweighting.
 *
 * Either parameter can be held (s at its start, 1 + a at 1): the four models none, s, a and both. Deviance = 2 Σ ρ(r) + prior.
 * Shape: places and girths in mm; shift in mm. Variances from the inverse Hessian.
 * Source: Huber 1964, Robust estimation of a location parameter (k = 1.345); engine section 4.
 * Example: every later girth is what stood 5 mm further up, a wide prior: shift 5 mm, factor 1.
 */
export function fitShift(data: ShiftData, prior: ShiftPrior, startMm: number, freeShift: boolean, freeFactor: boolean): ShiftModel {
  const point: CubicPoint = { girthMm: 0, slope: 0 };
  let shift = startMm;
  let factor = freeFactor ? factorAt(data, shift, point) : 1;
  let ss = 0;
  let sa = 0;
  let aa = 0;
  for (let round = 0; round < ROUNDS && (freeShift || freeFactor); round++) {
    ss = freeShift ? 1 / prior.varianceMm2 : 1;
    sa = 0;
    aa = freeFactor ? 0 : 1;
    let gradientShift = freeShift ? (prior.centreMm - shift) / prior.varianceMm2 : 0;
    let gradientFactor = 0;
    for (let rung = 0; rung < data.placesMm.length; rung++) {
      cubicAt(data.earlier, (data.placesMm[rung] as number) + shift, point);
      const sure = data.sureness[rung] as number;
      const weight = sure * sure;
      const residual = (data.girthsMm[rung] as number) - factor * point.girthMm;
      const scaled = Math.abs(residual) * sure;
      const trusted = scaled <= HUBER ? weight : (weight * HUBER) / scaled;
      const byShift = factor * point.slope;
      if (freeShift) {
        ss += trusted * byShift * byShift;
        gradientShift += trusted * byShift * residual;
      }
      if (freeFactor) {
        aa += trusted * point.girthMm * point.girthMm;
        gradientFactor += trusted * point.girthMm * residual;
      }
      if (freeShift && freeFactor) sa += trusted * byShift * point.girthMm;
    }
    const determinant = ss * aa - sa * sa;
    if (!(determinant > 0)) break;
    const shiftStep = freeShift ? (aa * gradientShift - sa * gradientFactor) / determinant : 0;
    const factorStep = freeFactor ? (ss * gradientFactor - sa * gradientShift) / determinant : 0;
    shift += shiftStep;
    factor += factorStep;
    if (Math.abs(shiftStep) < SMALL_STEP.shiftMm && Math.abs(factorStep) < SMALL_STEP.factor) break;
  }
  const determinant = ss * aa - sa * sa;
  return {
    shiftMm: shift,
    factor,
    shiftVariance: freeShift ? aa / determinant : 0,
    factorVariance: freeFactor ? ss / determinant : 0,
    deviance: robustDeviance(data, shift, factor, point) + priorDeviance(prior, shift),
  };
}

/**
 * Starts for a fit of the shift alone and of shift and factor together: the shifts on a coarse grid with the smallest deviances.
 *
 * Example: later girths are those of 12 mm further up, steps of 5 mm: 10 for the shift alone.
 */
export function bestStarts(data: ShiftData, prior: ShiftPrior, reachMm: number, stepMm: number): { shift: number; both: number } {
  const point: CubicPoint = { girthMm: 0, slope: 0 };
  const shift = { at: 0, deviance: Number.POSITIVE_INFINITY };
  const both = { at: 0, deviance: Number.POSITIVE_INFINITY };
  for (let at = -reachMm; at <= reachMm; at += stepMm) {
    const cost = priorDeviance(prior, at);
    const alone = robustDeviance(data, at, 1, point) + cost;
    const scaled = robustDeviance(data, at, factorAt(data, at, point), point) + cost;
    if (alone < shift.deviance) Object.assign(shift, { at, deviance: alone });
    if (scaled < both.deviance) Object.assign(both, { at, deviance: scaled });
  }
  return { shift: shift.at, both: both.at };
}

function factorAt(data: ShiftData, shift: number, point: CubicPoint): number {
  let over = 0;
  let under = 0;
  for (let rung = 0; rung < data.placesMm.length; rung++) {
    cubicAt(data.earlier, (data.placesMm[rung] as number) + shift, point);
    const weighted = (data.sureness[rung] as number) ** 2 * point.girthMm;
    over += weighted * (data.girthsMm[rung] as number);
    under += weighted * point.girthMm;
  }
  return over / under;
}

function robustDeviance(data: ShiftData, shift: number, factor: number, point: CubicPoint): number {
  let sum = 0;
  for (let rung = 0; rung < data.placesMm.length; rung++) {
    cubicAt(data.earlier, (data.placesMm[rung] as number) + shift, point);
    const residual = Math.abs((data.girthsMm[rung] as number) - factor * point.girthMm) * (data.sureness[rung] as number);
    sum += residual <= HUBER ? residual * residual : HUBER * (2 * residual - HUBER);
  }
  return sum;
}

function priorDeviance(prior: ShiftPrior, shift: number): number {
  return (shift - prior.centreMm) ** 2 / prior.varianceMm2 + prior.cost;
}
