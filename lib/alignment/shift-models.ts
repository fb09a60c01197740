import { akaikePenalty } from '../statistics/akaike-penalty';
import type { Alignment } from './align-ladders';
import { bestStarts, fitShift, type ShiftData, type ShiftModel, type ShiftPrior } from './shift-fit';

/** Moved zeros beyond ordinary placement: expected in one visit of twenty (−2 ln 0.05 = 6), SD 2.5 cm. Clinic default. */
const BLUNDER = { cost: 6, sdMm: 25 };
/** How far and how finely a blunder is looked for at first, mm. */
const REACH_MM = 70;
const STEP_MM = 10;
/** Far-off blunders and slipped rows are looked for only where no change at all fits badly; a blunder that fits no worse lies near. */
const FITS_BADLY_FROM = 40;
/** A shorter interval is no landmark's worth. */
const SHORTEST_SLIP_MM = 15;

/** The four models with their deviances, penalised for parameters; `withShift` is the better of shift and both. */
export type ShiftModels = {
  readonly none: number;
  readonly girth: number;
  readonly both: ShiftModel;
  readonly withShift: ShiftModel;
  readonly withShiftDeviance: number;
  /** The shift alone as a blunder, and its deviance without the price of one: how well girths and landmarks bear it, whatever its odds. */
  readonly wholeShift: ShiftModel;
  readonly wholeShiftDeviance: number;
};

/**
 * Fits the four models of what happened between two visits: nothing, a girth factor, a moved zero, both.
 *
 * `none` and `girth` hold zero in its place; `shift` and `both` may hold it as an ordinary placement (prior from the landmarks), as a
 * blunder, or as rows slipped by a whole interval, the last two at a price. Penalty for parameters: Akaike's.
 * Shape: what `fitShift` needs, the alignment, SD of a placement and the intervals of both ladders, mm.
 * Source: engine section 4; Akaike 1974, A new look at the statistical model identification.
 * Example: the same girths at both visits: `none` is cheapest, by Akaike’s two and more a parameter.
 */
export function fitModels(data: ShiftData, alignment: Alignment, placementMm: number, gaps: readonly number[]): ShiftModels {
  const usual: ShiftPrior = { centreMm: 0, varianceMm2: placementVariance(alignment), cost: 0 };
  const blunder = blunderPrior(alignment, placementMm);
  const inPlaceMm = alignment.zeroStepMm;
  const none = fitShift(data, usual, inPlaceMm, false, false);
  const girth = fitShift(data, usual, inPlaceMm, false, true);
  const usualShift = fitShift(data, usual, 0, true, false);
  const usualBoth = fitShift(data, usual, 0, true, true);
  const fitsBadly = none.deviance > FITS_BADLY_FROM;
  const one = akaikePenalty(1, data.placesMm.length);
  const two = akaikePenalty(2, data.placesMm.length);
  const found = (shift: ShiftModel, both: ShiftModel, whole: ShiftModel, wholeCost: number): ShiftModels => ({
    none: none.deviance,
    girth: girth.deviance + one,
    both,
    withShift: shift.deviance + one <= both.deviance + two ? shift : both,
    withShiftDeviance: Math.min(shift.deviance + one, both.deviance + two),
    wholeShift: whole,
    wholeShiftDeviance: whole.deviance - wholeCost + one,
  });
  const nothingElse = !fitsBadly && Math.min(girth.deviance + one, usualBoth.deviance) + BLUNDER.cost > none.deviance;
  if (nothingElse && !strains(usualShift, usual) && !strains(usualBoth, usual)) return found(usualShift, usualBoth, usualShift, 0);
  const near = { shift: usualShift.shiftMm, both: usualBoth.shiftMm };
  const starts = fitsBadly ? bestStarts(data, blunder, REACH_MM, STEP_MM) : near;
  const blunderShift = fitShift(data, blunder, starts.shift, true, false);
  const blunderBoth = fitShift(data, blunder, starts.both, true, true);
  const slips = fitsBadly ? slipPriors(data, usual, gaps) : [];
  const shift = [blunderShift, ...slips.map((slip) => fitShift(data, slip, slip.centreMm, true, false))].reduce(cheaper, usualShift);
  const both = [blunderBoth, ...slips.map((slip) => fitShift(data, slip, slip.centreMm, true, true))].reduce(cheaper, usualBoth);
  return found(shift, both, blunderShift, blunder.cost);
}

/**
 * Whether the prior of an ordinary placement holds a shift back by more than a blunder costs: only then can a blunder fit better.
 *
 * With ŝ the shift that girths alone ask for and k = 1 − v/τ² the share of it that came through, the strain is ŝ²k/τ² = s²/(k τ²).
 */
function strains(model: ShiftModel, prior: ShiftPrior): boolean {
  const through = Math.max(1 - model.shiftVariance / prior.varianceMm2, 1e-3);
  return (model.shiftMm - prior.centreMm) ** 2 / (through * prior.varianceMm2) > BLUNDER.cost;
}

/** Placement variance that the landmarks leave, mm²: mean of the knots' variances. */
function placementVariance(alignment: Alignment): number {
  return alignment.covariance.reduce((sum, row, knot) => sum + (row[knot] as number), 0) / alignment.covariance.length;
}

/**
 * A blunder: zero far from its landmark. Then zero tells nothing, and only the other landmarks (K − 1 of them) hold the shift back;
 * with the zero alone the prior is that of blunders.
 */
function blunderPrior(alignment: Alignment, placementMm: number): ShiftPrior {
  const others = alignment.earlierMm.length - 1;
  const wide = BLUNDER.sdMm * BLUNDER.sdMm;
  const step = alignment.zeroStepMm;
  if (others === 0) return { centreMm: step, varianceMm2: wide, cost: BLUNDER.cost };
  const byOthers = (2 * placementMm * placementMm) / others;
  const centreByOthers = -step / others;
  const variance = 1 / (1 / byOthers + 1 / wide);
  return { centreMm: variance * (centreByOthers / byOthers + step / wide), varianceMm2: variance, cost: BLUNDER.cost };
}

/** Girths written one row too high or too low: a whole interval off whatever the landmarks say, as rare as a blunder. */
function slipPriors(data: ShiftData, usual: ShiftPrior, gaps: readonly number[]): ShiftPrior[] {
  const reach = (data.placesMm.at(-1) as number) - (data.placesMm[0] as number);
  const slips = [...new Set(gaps)].filter((gap) => gap >= SHORTEST_SLIP_MM && gap < reach / 2).flatMap((gap) => [gap, -gap]);
  return slips.map((centreMm) => ({ centreMm, varianceMm2: usual.varianceMm2, cost: BLUNDER.cost }));
}

function cheaper(one: ShiftModel, other: ShiftModel): ShiftModel {
  return other.deviance < one.deviance ? other : one;
}
