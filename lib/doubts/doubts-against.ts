import { fitLevel, type LevelPoint, levelPoint, levelPoints, predictionSd, residual, zScoreOf } from '../alignment/level-fit';
import type { ReferenceLine, TapedRung } from '../alignment/reference-line';
import type { Doubt } from '../ladder/doubt';
import { DOUBT_LIMITS } from '../ladder/doubt-limits';
import { possibleSlips, SLIP_WORDS, type Slip } from '../ladder/slip';
import { REACH_95 } from '../statistics/reach-95';
import { capitalized } from '../units/capitalized';
import type { LengthUnit } from '../units/length';
import { showLength, showLengthWithUnit, showTapedLength } from '../units/show-length';

type Odd = {
  readonly index: number;
  readonly excess: number;
  readonly slip: Slip | undefined;
  readonly expectedMm: number;
  /** SD of a reading about it, as a logarithm. */
  readonly sd: number;
};

/**
 * Questions about single rungs against another ladder of the same anatomy: the last visit, or the other limb today.
 *
 * A rung is odd when it lies far from what the *other* rungs of this ladder and the reference lead one to expect together (level,
 * zero and tilt are left free), so growth, weight and even swelling are no reason to ask. A figure that a usual slip would put right is
 * asked about sooner. The oddest is asked about first and then left out, so that one slip raises one question.
 * `milder` multiplies the limits in a swollen limb. Shape: rungs by distance (mm), a reference; doubts, and the rungs that fit it.
 * Source: `DOUBT_LIMITS`, `SPREAD`. Example: 14 Oct 12⅛ in, neighbours as then, typed 21 1/8: "21⅛ or 12⅛?".
 */
export function doubtsAgainst(
  rungs: readonly TapedRung[],
  reference: ReferenceLine,
  unit: LengthUnit,
  milder: number,
): { readonly doubts: Doubt[]; readonly fitting: ReadonlySet<number> } {
  const points = levelPoints(rungs, reference);
  const odd = new Map<number, Odd>();
  for (;;) {
    const worst = oddest(rungs, points, reference, milder, odd);
    if (!worst) break;
    odd.set(worst.index, worst);
  }
  const fits = (point: LevelPoint, index: number) =>
    Math.abs(
      zScoreOf(
        point,
        fitLevel(points, reference.spread, (other) => other === index || odd.has(other)),
      ),
    ) <= DOUBT_LIMITS.fits.value;
  const fitting = new Set(
    rungs.flatMap((rung, index) => {
      const point = points[index];
      return point && !odd.has(index) && fits(point, index) ? [rung.atMm] : [];
    }),
  );
  const doubts = [...odd.values()].map((one) => inWords(rungs, one, reference, unit));
  return { doubts, fitting };
}

function oddest(
  rungs: readonly TapedRung[],
  points: readonly (LevelPoint | undefined)[],
  reference: ReferenceLine,
  milder: number,
  known: ReadonlyMap<number, Odd>,
): Odd | undefined {
  let worst: Odd | undefined;
  points.forEach((point, index) => {
    if (!point || known.has(index)) return;
    const fit = fitLevel(points, reference.spread, (other) => other === index || known.has(other));
    const z = Math.abs(zScoreOf(point, fit));
    if (z < DOUBT_LIMITS.slip.value * milder) return;
    const rung = rungs[index] as TapedRung;
    const slip = bestSlip(rung, reference, fit);
    const alone = Math.abs(point.y) > DOUBT_LIMITS.aloneShare.value ? z / (DOUBT_LIMITS.alone.value * milder) : 0;
    const excess = Math.max(alone, slip ? z / (DOUBT_LIMITS.slip.value * milder) : 0);
    if (excess <= 1 || (worst && excess <= worst.excess)) return;
    const expectedMm = (rung.girth.nm / 1e6) * Math.exp(-residual(point, fit));
    worst = { index, excess, slip, expectedMm, sd: predictionSd(point, fit) };
  });
  return worst;
}

/** The slip whose correction fits best, if any fits. */
function bestSlip(rung: TapedRung, reference: ReferenceLine, fit: ReturnType<typeof fitLevel>): Slip | undefined {
  let best: { slip: Slip; z: number } | undefined;
  for (const slip of possibleSlips(rung.girth)) {
    if (Math.abs(slip.girthMm - rung.girth.nm / 1e6) < DOUBT_LIMITS.slipMovesMm.value) continue;
    const point = levelPoint(slip.girthMm, rung.atMm, reference);
    const z = point ? Math.abs(zScoreOf(point, fit)) : Number.POSITIVE_INFINITY;
    if (z <= DOUBT_LIMITS.slipCorrected.value && (!best || z < best.z)) best = { slip, z };
  }
  return best?.slip;
}

function inWords(rungs: readonly TapedRung[], { index, slip, expectedMm, sd }: Odd, reference: ReferenceLine, unit: LengthUnit): Doubt {
  const { atMm, girth } = rungs[index] as TapedRung;
  const place = showLengthWithUnit(atMm, unit);
  const shown = showTapedLength(girth.nm / 1e6, unit);
  const before = rungs[index - 1];
  const there = reference.shownMm(atMm);
  const reasons = [
    ...(before ? [`the rung before is ${showTapedLength(before.girth.nm / 1e6, unit)}`] : []),
    there === undefined
      ? `its neighbours lead one to expect about ${showLength(expectedMm, unit)}`
      : `${reference.words} ${showLength(there, unit)}`,
  ].join(', and ');
  const ends = [-REACH_95, REACH_95].map((reach) => showLength(expectedMm * Math.exp(reach * sd), unit));
  const reason = `${capitalized(reasons)}. ${ends.join(' to ')} is expected.`;
  const kind = slip?.kind ?? reference.kind;
  const question = slip ? `${place}: ${shown} or ${showTapedLength(slip.girthMm, unit)}?` : `${place}: ${shown}?`;
  const message = [question, reason, slip ? (SLIP_WORDS[slip.kind] ?? '') : ''].join(' ').trim();
  return {
    kind,
    distanceMm: atMm,
    message,
    ...(slip ? { wouldFitMm: slip.girthMm } : {}),
  };
}
