import { fitLevel, type LevelPoint, levelPoint, levelPoints } from '../alignment/level-fit';
import type { ReferenceLine, TapedRung } from '../alignment/reference-line';
import type { Doubt } from '../ladder/doubt';
import { DOUBT_LIMITS } from '../ladder/doubt-limits';
import type { LengthUnit } from '../units/length';
import { showLengthWithUnit } from '../units/show-length';

/** What a question about one rung costs against one about the order of several, as χ²: so much a single slip must explain. */
const SINGLE_COSTS = 9;

/**
 * Whether figures stand on the wrong rung: from some rung on all one place off (a rung skipped or taped twice), or two neighbours
 * exchanged.
 *
 * Each hypothesis is fitted like the ladder as typed; it is asked about when its sum of squares is smaller by more than the limit, and
 * smaller than that of single slips at the `odd` rungs (each at a cost). The smallest number of moved rungs is two: one alone is a
 * question about that rung.
 * Shape: rungs by distance (mm), the distances of all rows, a reference; at most one doubt, and the distances it explains.
 * Source: likelihood ratio; `DOUBT_LIMITS.shiftGain`, `swapGain`.
 * Example: the girth of 9 in was never taped and 10½ stands there, 12 at 10½ and so on: "Was the rung at 9 in left out?".
 */
export function doubtOfOrder(
  rungs: readonly TapedRung[],
  rowsMm: readonly number[],
  reference: ReferenceLine,
  unit: LengthUnit,
  odd: ReadonlySet<number>,
): { readonly doubt: Doubt; readonly explains: (distanceMm: number) => boolean } | undefined {
  const straight = levelPoints(rungs, reference);
  if (straight.filter(Boolean).length < 3) return undefined;
  const isOdd = (index: number) => odd.has(rungs[index]?.atMm ?? -1);
  const asSlips = fitLevel(straight, reference.spread, isOdd).chi2 + odd.size * SINGLE_COSTS;
  const chi2 = Math.min(fitLevel(straight, reference.spread, () => false).chi2, asSlips);
  const shift = bestShift(rungs, rowsMm, straight, reference);
  const swap = bestSwap(rungs, straight, reference);
  const shiftGain = (chi2 - (shift?.chi2 ?? chi2)) / DOUBT_LIMITS.shiftGain.value;
  const swapGain = (chi2 - (swap?.chi2 ?? chi2)) / DOUBT_LIMITS.swapGain.value;
  if (swap && swapGain > 1 && swapGain >= shiftGain) return askSwap(rungs, swap.from, unit);
  if (shift && shiftGain > 1) return askShift(rungs, shift.from, shift.by, unit);
  return undefined;
}

type Hypothesis = {
  readonly from: number;
  readonly by: 1 | -1;
  readonly chi2: number;
};

function bestShift(
  rungs: readonly TapedRung[],
  rowsMm: readonly number[],
  straight: readonly (LevelPoint | undefined)[],
  reference: ReferenceLine,
): Hypothesis | undefined {
  let best: Hypothesis | undefined;
  for (const by of [1, -1] as const) {
    const moved = rungs.map((rung) => {
      const place = neighbourRow(rowsMm, rung.atMm, by);
      return place === undefined ? undefined : levelPoint(rung.girth.nm / 1e6, place, reference);
    });
    for (let from = by === 1 ? 0 : 1; from + 1 < rungs.length; from++) {
      if (moved.slice(from).some((point, index) => !point && straight[from + index])) continue;
      const points = straight.map((point, index) => (index < from ? point : moved[index]));
      const { chi2 } = fitLevel(points, reference.spread, (index) => straight[index] === undefined);
      if (!best || chi2 < best.chi2) best = { from, by, chi2 };
    }
  }
  return best;
}

/** The place one row on or back; beyond the outer rows, a step of the last interval. */
function neighbourRow(rowsMm: readonly number[], atMm: number, by: 1 | -1): number | undefined {
  const row = rowsMm.indexOf(atMm);
  const next = rowsMm[row + by];
  if (next !== undefined) return next;
  const inner = rowsMm[row - by];
  return inner === undefined ? undefined : atMm + (atMm - inner);
}

function bestSwap(
  rungs: readonly TapedRung[],
  straight: readonly (LevelPoint | undefined)[],
  reference: ReferenceLine,
): Hypothesis | undefined {
  let best: Hypothesis | undefined;
  for (let from = 0; from + 1 < rungs.length; from++) {
    const [lower, upper] = [rungs[from], rungs[from + 1]] as [TapedRung, TapedRung];
    if (lower.girth.nm === upper.girth.nm || !straight[from] || !straight[from + 1]) continue;
    const points = [...straight];
    points[from] = levelPoint(upper.girth.nm / 1e6, lower.atMm, reference);
    points[from + 1] = levelPoint(lower.girth.nm / 1e6, upper.atMm, reference);
    const { chi2 } = fitLevel(points, reference.spread, () => false);
    if (!best || chi2 < best.chi2) best = { from, by: 1, chi2 };
  }
  return best;
}

function askShift(rungs: readonly TapedRung[], from: number, by: 1 | -1, unit: LengthUnit) {
  const atMm = (rungs[from] as TapedRung).atMm;
  const place = showLengthWithUnit(atMm, unit);
  const message =
    by === 1
      ? `Was the rung at ${place} left out? From there on every figure fits the next place better than its own.`
      : `Was the rung before ${place} typed twice? From there on every figure fits the place before better than its own.`;
  const doubt: Doubt = {
    kind: 'shifted-rungs',
    distanceMm: atMm,
    message,
    moveBy: by,
  };
  return { doubt, explains: (distanceMm: number) => distanceMm >= atMm };
}

function askSwap(rungs: readonly TapedRung[], from: number, unit: LengthUnit) {
  const [lower, upper] = [rungs[from], rungs[from + 1]] as [TapedRung, TapedRung];
  const message = `${showLengthWithUnit(lower.atMm, unit)} and ${showLengthWithUnit(upper.atMm, unit)}: the wrong way round? Exchanged, the two figures would fit.`;
  const doubt: Doubt = {
    kind: 'swapped-neighbours',
    distanceMm: upper.atMm,
    message,
  };
  return {
    doubt,
    explains: (distanceMm: number) => distanceMm === lower.atMm || distanceMm === upper.atMm,
  };
}
