import type { TapedLine } from '../ladder/taped-line';
import { type Alignment, toEarlier } from './align-ladders';
import { monotoneCubic } from './monotone-cubic';
import { bestStart, fitShift, type ShiftData, type ShiftModel, type ShiftPrior } from './shift-fit';

/** What girths and landmarks together say of a moved zero. */
export type ShiftFinding = 'zero-moved' | 'interval-slipped' | 'cannot-tell' | 'inch-centimetre';

export type ShiftCheck = {
  /** How much nearer the trunk the later zero lies than the earlier one, mm, landmarks and girths together; and its SE. */
  readonly mm: number;
  readonly seMm: number;
  /** The part that girths add to what landmarks already said, mm: what realigning would move. */
  readonly residualMm: number;
  /** Girth change that remains with the shift taken out, as a factor, and its SE. */
  readonly factor: number;
  readonly factorSe: number;
  readonly finding: ShiftFinding | null;
};

/** Two explanations count as told apart when their deviances differ by this much (likelihood ratio e³, about 20). Clinic default. */
const TOLD_APART = 6;
/** Moved zeros beyond ordinary placement: expected in one visit of twenty (−2 ln 0.05 = 6), SD 2.5 cm. Clinic default. */
const BLUNDER = { cost: 6, sdMm: 25 };
/** Beside reading error, a limb's shape itself varies from visit to visit by about this share of girth. Clinic default. */
const SHAPE_SHARE = 0.005;
const REACH_MM = 70;
const STEP_MM = 10;
const FEWEST_RUNGS = 4;
const SLIP_WITHIN_MM = 3;

/**
 * Whether the later zero looks moved, judged by girths beside landmarks; nothing is corrected.
 *
 * Four models are compared: no change, a shift s, a girth factor 1 + a, both. The shift has the prior that landmarks leave, or, at a
 * price, that of a blunder. *Moved* needs |s| at the limit or more, 2 SE, and a deviance smaller by the limit than a girth change
 * alone gives; *cannot tell* means that a shift of that size explains a change as well as a girth change does (a cone).
 * Shape: two taped lines, their alignment, later / earlier expected girth by earlier place, SD of a reading, SD of a
 * placement, smallest shift that is asked about (the policy's `shiftAskMm`), mm.
 * Undefined with fewer than four rungs in common. Source: engine section 4; Huber 1964.
 * Example: a leg taped from 2 cm above the crease gives `zero-moved`, about +20 mm; the same on a straight cone gives `cannot-tell`.
 */
export function checkShift(
  earlier: TapedLine,
  later: TapedLine,
  alignment: Alignment,
  expectedFactor: (earlierPlaceMm: number) => number,
  readingMm: number,
  placementMm: number,
  askFromMm: number,
): ShiftCheck | undefined {
  const data = shiftData(earlier, later, alignment, expectedFactor, readingMm);
  if (!data) return undefined;
  const models = fitModels(data, alignment, placementMm);
  const landmarkMm = -alignment.zeroStepMm;
  const finding = looksLikeOtherUnit(data) ? 'inch-centimetre' : findingOf(models, landmarkMm, askFromMm, earlier, later);
  const reported = finding === 'cannot-tell' ? models.shift : finding ? models.withShift : models.both;
  return {
    mm: reported.shiftMm + landmarkMm,
    seMm: Math.sqrt(reported.shiftVariance),
    residualMm: reported.shiftMm,
    factor: reported.factor,
    factorSe: Math.sqrt(reported.factorVariance),
    finding,
  };
}

/** The four models with their deviances, penalised for parameters; `withShift` is the better of shift and both. */
type Models = {
  readonly none: number;
  readonly girth: number;
  readonly shift: ShiftModel;
  readonly both: ShiftModel;
  readonly withShift: ShiftModel;
  readonly withShiftDeviance: number;
  /** The shift alone without the price of a blunder: how well girths and landmarks bear it, whatever its odds. */
  readonly shiftAlone: number;
};

/** `none` and `girth` hold zero in its place; `shift` and `both` may hold it as an ordinary placement or as a blunder. */
function fitModels(data: ShiftData, alignment: Alignment, placementMm: number): Models {
  const usual: ShiftPrior = { centreMm: 0, varianceMm2: placementVariance(alignment), cost: 0 };
  const blunder = blunderPrior(alignment, placementMm);
  const inPlaceMm = alignment.zeroStepMm;
  const none = fitShift(data, usual, inPlaceMm, false, false);
  const girth = fitShift(data, usual, inPlaceMm, false, true);
  const usualShift = fitShift(data, usual, 0, true, false);
  const blunderShift = fitShift(data, blunder, bestStart(data, blunder, REACH_MM, STEP_MM, false), true, false);
  const usualBoth = fitShift(data, usual, 0, true, true);
  const blunderBoth = fitShift(data, blunder, bestStart(data, blunder, REACH_MM, STEP_MM, true), true, true);
  const shift = cheaper(usualShift, blunderShift);
  const both = cheaper(usualBoth, blunderBoth);
  const one = penalty(1, data.placesMm.length);
  const two = penalty(2, data.placesMm.length);
  const withShift = shift.deviance + one <= both.deviance + two ? shift : both;
  return {
    none: none.deviance,
    girth: girth.deviance + one,
    shift,
    both,
    withShift,
    withShiftDeviance: Math.min(shift.deviance + one, both.deviance + two),
    shiftAlone: Math.min(usualShift.deviance, blunderShift.deviance - blunder.cost) + one,
  };
}

function findingOf(models: Models, landmarkMm: number, askFromMm: number, earlier: TapedLine, later: TapedLine): ShiftFinding | null {
  const movedMm = models.withShift.shiftMm + landmarkMm;
  const toldFromGirth = models.withShiftDeviance + TOLD_APART <= Math.min(models.girth, models.none);
  const sure = movedMm * movedMm > 4 * models.withShift.shiftVariance;
  if (Math.abs(movedMm) >= askFromMm && sure && toldFromGirth) {
    return isWholeInterval(movedMm, earlier.placesMm, later.placesMm) ? 'interval-slipped' : 'zero-moved';
  }
  const changed = Math.min(models.girth, models.withShiftDeviance) + TOLD_APART <= models.none;
  const shiftWouldDo = models.shiftAlone < models.girth + TOLD_APART && Math.abs(models.shift.shiftMm + landmarkMm) >= askFromMm;
  return changed && shiftWouldDo ? 'cannot-tell' : null;
}

function shiftData(
  earlier: TapedLine,
  later: TapedLine,
  alignment: Alignment,
  expectedFactor: (earlierPlaceMm: number) => number,
  readingMm: number,
): ShiftData | undefined {
  const first = earlier.placesMm[0];
  const last = earlier.placesMm[earlier.placesMm.length - 1];
  if (first === undefined || last === undefined || earlier.placesMm.length < FEWEST_RUNGS) return undefined;
  const placesMm: number[] = [];
  const girthsMm: number[] = [];
  const weights: number[] = [];
  for (let rung = 0; rung < later.placesMm.length; rung++) {
    const place = toEarlier(alignment, later.placesMm[rung] as number);
    if (place < first || place > last) continue;
    const girth = (later.girthsMm[rung] as number) / expectedFactor(place);
    placesMm.push(place);
    girthsMm.push(girth);
    weights.push(1 / (2 * readingMm * readingMm + (SHAPE_SHARE * girth) ** 2));
  }
  if (placesMm.length < FEWEST_RUNGS) return undefined;
  return { earlier: monotoneCubic(earlier.placesMm, earlier.girthsMm), placesMm, girthsMm, weights };
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
  const others = alignment.landmarks.length - 1;
  const wide = BLUNDER.sdMm * BLUNDER.sdMm;
  const step = alignment.zeroStepMm;
  if (others === 0) return { centreMm: step, varianceMm2: wide, cost: BLUNDER.cost };
  const byOthers = (2 * placementMm * placementMm) / others;
  const centreByOthers = -step / others;
  const variance = 1 / (1 / byOthers + 1 / wide);
  return { centreMm: variance * (centreByOthers / byOthers + step / wide), varianceMm2: variance, cost: BLUNDER.cost };
}

function cheaper(one: ShiftModel, other: ShiftModel): ShiftModel {
  return other.deviance < one.deviance ? other : one;
}

/** Akaike's penalty with the small-sample correction (Hurvich and Tsai 1989) below fifteen rungs. */
function penalty(parameters: number, rungs: number): number {
  const spare = rungs - parameters - 1;
  const correction = rungs < 15 && spare > 0 ? (2 * parameters * (parameters + 1)) / spare : 0;
  return 2 * parameters + correction;
}

/** 1 in = 2.54 cm: girths all about 2.54 times as large, or as small, read in the other unit. */
function looksLikeOtherUnit(data: ShiftData): boolean {
  const middle = Math.floor(data.placesMm.length / 2);
  const ratios = data.placesMm.map((place, rung) => {
    const below = data.earlier.placesMm.findLastIndex((taped) => taped <= place);
    return (data.girthsMm[rung] as number) / (data.earlier.girthsMm[below] as number);
  });
  const median = ratios.sort((low, high) => low - high)[middle] as number;
  return Math.abs(Math.log(median / 2.54)) < 0.15 || Math.abs(Math.log(median * 2.54)) < 0.15;
}

function isWholeInterval(shiftMm: number, earlierMm: readonly number[], laterMm: readonly number[]): boolean {
  return [usualGap(earlierMm), usualGap(laterMm)].some((gap) => Math.abs(Math.abs(shiftMm) - gap) <= SLIP_WITHIN_MM);
}

function usualGap(placesMm: readonly number[]): number {
  const gaps = placesMm.slice(1).map((place, index) => place - (placesMm[index] as number));
  return gaps.sort((low, high) => low - high)[Math.floor(gaps.length / 2)] ?? 0;
}
