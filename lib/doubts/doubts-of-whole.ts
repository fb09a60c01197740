import { fitLevel, levelPoints } from '../alignment/level-fit';
import type { ReferenceLine, TapedRung } from '../alignment/reference-line';
import type { Doubt } from '../ladder/doubt';
import { DOUBT_LIMITS } from '../ladder/doubt-limits';
import type { LimbKind } from '../ladder/limb';
import { plausibleGirths } from '../ladder/plausible-girths';
import { median } from '../statistics/median';
import type { LengthUnit } from '../units/length';
import { nameOf } from '../units/read-length';

const OTHER_UNIT: Readonly<Record<LengthUnit, LengthUnit>> = {
  in: 'cm',
  cm: 'in',
};

/** A level within this much of ×2.54 (or its inverse), as a logarithm, is the other unit. Clinic default. */
const NEAR_UNIT = 0.35;

/**
 * Whether a whole ladder was typed in the other unit: against a reference by its middle ratio, else by what a limb can measure.
 *
 * Shape: rungs by distance, a reference or undefined, anatomical place (0 to 2) of a distance. Source: 1 in = 2.54 cm;
 * `plausibleGirths`. Example: 14 figures about 2.54 times those of the last visit: "Are these 14 figures centimetres?".
 */
export function doubtOfUnit(
  rungs: readonly TapedRung[],
  reference: ReferenceLine | undefined,
  limb: LimbKind,
  unit: LengthUnit,
  placeOf: (distanceMm: number) => number,
): Doubt | undefined {
  if (rungs.length < DOUBT_LIMITS.fewestForWhole.value) return undefined;
  const ratios = reference ? levelPoints(rungs, reference).flatMap((point) => (point ? [point.y] : [])) : [];
  const other = OTHER_UNIT[unit];
  const factor = Math.log(unit === 'in' ? 2.54 : 1 / 2.54);
  const byReference = ratios.length >= DOUBT_LIMITS.fewestForWhole.value && Math.abs(median(ratios) - factor) < NEAR_UNIT;
  const convert = Math.exp(-factor);
  const fits = (scale: number) =>
    rungs.filter(({ girth, atMm }) => {
      const { least, most } = plausibleGirths(limb, placeOf(atMm));
      const girthMm = (girth.nm / 1e6) * scale;
      return girthMm >= least && girthMm <= most;
    }).length;
  const byRange = ratios.length === 0 && fits(1) <= 0.25 * rungs.length && fits(convert) >= 0.9 * rungs.length;
  if (!byReference && !byRange) return undefined;
  return {
    kind: 'inch-centimetre',
    distanceMm: null,
    message: `Are these ${rungs.length} figures ${nameOf(other)}? They read like ${nameOf(other)}, and the sheet is in ${nameOf(unit)}.`,
  };
}

/** Whether every figure, four or more, equals the last visit's or the other limb's. Source: `DOUBT_LIMITS.fewestEqual`. */
export function doubtOfCopy(
  rungs: readonly TapedRung[],
  girthsNm: ReadonlyMap<number, number>,
  kind: 'equals-last-visit' | 'equals-other-limb',
  limb: LimbKind,
): Doubt | undefined {
  const equal = rungs.filter((rung) => girthsNm.get(rung.atMm) === rung.girth.nm).length;
  if (equal < DOUBT_LIMITS.fewestEqual.value || equal < rungs.length) return undefined;
  const message =
    kind === 'equals-last-visit'
      ? `Was the ${limb} measured today? Every figure equals the last visit.`
      : `Was this ${limb} measured by itself? Every figure equals the other ${limb}.`;
  return { kind, distanceMm: null, message };
}

/** One side as typed, with what its own last visit and the other side’s last visit lead one to expect. */
export type SideAgainst = {
  readonly rungs: readonly TapedRung[];
  readonly own: ReferenceLine;
  readonly across: ReferenceLine;
};

/**
 * Whether left and right were changed round: both ladders fit the other side’s last visit much better than their own.
 *
 * Source: likelihood ratio; `DOUBT_LIMITS.sidesGain`. Example: a swollen left leg typed in the right column and the other way round.
 */
export function doubtOfSides(sides: readonly [SideAgainst, SideAgainst], limb: LimbKind): Doubt | undefined {
  if (sides.some(({ rungs }) => rungs.length < DOUBT_LIMITS.fewestEqual.value)) return undefined;
  const gains = sides.map(({ rungs, own, across }) => misfit(rungs, own) - misfit(rungs, across));
  const total = gains.reduce((sum, gain) => sum + gain, 0);
  if (total < DOUBT_LIMITS.sidesGain.value || gains.some((gain) => gain < 0)) return undefined;
  return {
    kind: 'sides-swapped',
    distanceMm: null,
    message: `Are left and right changed round? Each ${limb} fits the other side’s last visit better than its own.`,
  };
}

/** Sum of squares without freedom of level: sides differ by their level. */
function misfit(rungs: readonly TapedRung[], reference: ReferenceLine): number {
  const strict = { ...reference.spread, level: 0.02, tilt: 0.02 };
  return fitLevel(levelPoints(rungs, reference), strict, () => false).chi2;
}
