import { girthAt } from '../ladder/girth-at';
import type { TapedLine } from '../ladder/taped-line';
import { REACH_95 } from '../statistics/reach-95';
import { type Alignment, toEarlier } from './align-ladders';
import { monotoneCubic } from './monotone-cubic';
import type { ShiftData } from './shift-fit';
import { fitModels, type ShiftModels } from './shift-models';

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
/** Beside reading error, a limb's shape itself varies from visit to visit by about this share of girth. Clinic default. */
const SHAPE_SHARE = 0.005;
const FEWEST_RUNGS = 4;
/** A shift this near one interval, or within its own error of it but no further than twice that, is named a slipped interval. Clinic default. */
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
  const gaps = [usualGap(earlier.placesMm), usualGap(later.placesMm)];
  const models = fitModels(data, alignment, placementMm, gaps);
  const landmarkMm = -alignment.zeroStepMm;
  const finding = looksLikeOtherUnit(data) ? 'inch-centimetre' : findingOf(models, landmarkMm, askFromMm, gaps);
  const reported = finding === 'cannot-tell' ? models.wholeShift : finding ? models.withShift : models.both;
  return {
    mm: reported.shiftMm + landmarkMm,
    seMm: Math.sqrt(reported.shiftVariance),
    residualMm: reported.shiftMm,
    factor: reported.factor,
    factorSe: Math.sqrt(reported.factorVariance),
    finding,
  };
}

function findingOf(models: ShiftModels, landmarkMm: number, askFromMm: number, gaps: readonly number[]): ShiftFinding | null {
  const movedMm = models.withShift.shiftMm + landmarkMm;
  const toldFromGirth = models.withShiftDeviance + TOLD_APART <= Math.min(models.girth, models.none);
  const sure = movedMm * movedMm > 4 * models.withShift.shiftVariance;
  if (Math.abs(movedMm) >= askFromMm && sure && toldFromGirth) {
    return isWholeInterval([movedMm, models.withShift.shiftMm], models.withShift.shiftVariance, gaps) ? 'interval-slipped' : 'zero-moved';
  }
  const changed = Math.min(models.girth, models.withShiftDeviance) + TOLD_APART <= models.none;
  const wholeMm = models.wholeShift.shiftMm + landmarkMm;
  const shiftWouldDo = models.wholeShiftDeviance < models.girth + TOLD_APART && Math.abs(wholeMm) >= askFromMm;
  const girthWouldDo = models.girth < models.wholeShiftDeviance + 2 * TOLD_APART;
  return changed && shiftWouldDo && girthWouldDo ? 'cannot-tell' : null;
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
  const sureness: number[] = [];
  for (let rung = 0; rung < later.placesMm.length; rung++) {
    const place = toEarlier(alignment, later.placesMm[rung] as number);
    if (place < first || place > last) continue;
    const girth = (later.girthsMm[rung] as number) / expectedFactor(place);
    placesMm.push(place);
    girthsMm.push(girth);
    sureness.push(1 / Math.sqrt(2 * readingMm * readingMm + (SHAPE_SHARE * girth) ** 2));
  }
  if (placesMm.length < FEWEST_RUNGS) return undefined;
  return { earlier: monotoneCubic(earlier.placesMm, earlier.girthsMm), placesMm, girthsMm, sureness };
}

/** 1 in = 2.54 cm: girths all about 2.54 times as large, or as small, read in the other unit. */
function looksLikeOtherUnit(data: ShiftData): boolean {
  const [first] = data.placesMm;
  if (first === undefined || isNearly(data.girthsMm[0] as number, girthAt(data.earlier.placesMm, data.earlier.girthsMm, first)))
    return false;
  const middle = Math.floor(data.placesMm.length / 2);
  const ratios = data.placesMm.map((place, rung) => {
    const below = data.earlier.placesMm.findLastIndex((taped) => taped <= place);
    return (data.girthsMm[rung] as number) / (data.earlier.girthsMm[below] as number);
  });
  const median = ratios.sort((low, high) => low - high)[middle] as number;
  return Math.abs(Math.log(median / 2.54)) < 0.15 || Math.abs(Math.log(median * 2.54)) < 0.15;
}

/** Whether the zero, or the girths against their landmarks, lie one interval off. */
function isWholeInterval(shiftsMm: readonly number[], variance: number, gaps: readonly number[]): boolean {
  const within = Math.min(Math.max(SLIP_WITHIN_MM, REACH_95 * Math.sqrt(variance)), 2 * SLIP_WITHIN_MM);
  return shiftsMm.some((shift) => gaps.some((gap) => Math.abs(Math.abs(shift) - gap) <= within));
}

/** Within a third of what it was: no other unit. Spares the ordinary ladder the search. */
function isNearly(girthMm: number, thenMm: number | undefined): boolean {
  return thenMm !== undefined && girthMm > thenMm / 1.5 && girthMm < thenMm * 1.5;
}

function usualGap(placesMm: readonly number[]): number {
  const gaps = placesMm.slice(1).map((place, index) => place - (placesMm[index] as number));
  return gaps.sort((low, high) => low - high)[Math.floor(gaps.length / 2)] ?? 0;
}
