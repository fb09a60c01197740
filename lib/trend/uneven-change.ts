import { toLater } from '../alignment/align-ladders';
import { placeCovariance } from '../alignment/place-covariance';
import { girthAt } from '../ladder/girth-at';
import { type LandmarkId, LIMBS } from '../ladder/limb';
import type { TapedLine } from '../ladder/taped-line';
import type { Policy } from '../record/policy';
import { crossSection } from '../volume/frustum';
import { type Span, spanVolume } from '../volume/span-volume';
import { readingGain } from '../volume/volume-gradient';
import { explainedChange } from './explained-change';
import { type LimbChange, tensionBetween } from './limb-change';
import { tapeErrorOf } from './limb-series';

/** One part of a limb between two visits: mean girth later / earlier, and what body size leads one to expect of it. */
export type PartChange = { readonly girthRatio: number; readonly expectedRatio: number };

/** The far part of a limb against the near one between two visits. */
export type UnevenChange = {
  /** The landmark between the parts; null where the middle of the shared stretch divides them. */
  readonly at: LandmarkId | null;
  readonly far: PartChange;
  readonly near: PartChange;
  /** How far-part girth changed against near-part girth beyond what is expected, as a ratio, and the SD of its logarithm. */
  readonly ratio: number;
  readonly sd: number;
};

/** A part with fewer rungs than this hangs on single readings. Clinic default. */
const FEWEST_RUNGS = 3;
/** Of what body size and the pull of the tape leave open along the whole limb, so much may fall on one part alone. Clinic default. */
const ONE_PART_SHARE = 0.5;

/**
 * Whether one part of a limb changed and the other did not: the contrast of the two parts' mean girths, far against near.
 *
 * A verdict on mean girth dilutes swelling of half a limb; the contrast keeps it, and what is common to the limb (tape tension, weight)
 * drops out of it to first order. Parts meet at the middle landmark, else at the middle of what both ladders tape.
 * ln c = ln (G₂/G₁ far) − ln (G₂/G₁ near), G = √(V / L); its variance: reading σ² Σg² / 4V² of both parts at both visits, placement
 * from the covariance of the three places where the parts begin, meet and end. Healthy other limb and body size as in `explainedChange`.
 * Shape: a change; the other limb's of the same two days when that limb is healthy; the policy; SD of girth from posture or hour.
 * Undefined where a part has fewer than three rungs or nothing can be expected. Source: first-order error propagation, Gauss–Markov.
 * Example: a leg 5 % thicker below the knee alone has far 1.05, near 1.00, ratio 1.05.
 */
export function unevenChange(
  change: LimbChange,
  other: LimbChange | undefined,
  policy: Policy,
  confoundSd: number,
): UnevenChange | undefined {
  const own = contrastOf(change, policy);
  if (!own) return undefined;
  const { modelSd } = change.body;
  const doubt = { modelSd: modelSd === undefined ? undefined : ONE_PART_SHARE * modelSd, confoundSd };
  const witness = other && contrastOf(other, policy);
  const explained = explainedChange(own, own.expectedRatio, doubt, witness && { girth: witness, expectedRatio: witness.expectedRatio });
  return explained && { at: own.at, far: own.far, near: own.near, ratio: explained.unexplainedRatio, sd: explained.sd };
}

function contrastOf(change: LimbChange, policy: Policy) {
  const { earlier, later, alignment, measured, expectedAt } = change;
  const [first, second] = [earlier.placed.line, later.placed.line];
  const { fromMm, toMm } = measured.shared.earlier;
  const divided = divide(change);
  if (!divided) return undefined;
  const places = [fromMm, divided.placeMm, toMm] as const;
  const laterPlaces = [measured.shared.later.fromMm, toLater(alignment, divided.placeMm), measured.shared.later.toMm] as const;
  const tape = tapeErrorOf(policy);
  const far = partOf(first, second, { fromMm, toMm: places[1] }, { fromMm: laterPlaces[0], toMm: laterPlaces[1] }, expectedAt);
  const near = partOf(first, second, { fromMm: places[1], toMm }, { fromMm: laterPlaces[1], toMm: laterPlaces[2] }, expectedAt);
  if (!far || !near) return undefined;
  const section = laterPlaces.map((place) => crossSection(girthAt(second.placesMm, second.girthsMm, place) ?? 0));
  const pull = (at: 0 | 1 | 2, part: Part): number => ((section[at] as number) / part.volume - 1 / part.length) / 2;
  const weights = [-pull(0, far), pull(1, far) + pull(1, near), -pull(2, near)];
  let placement = 0;
  weights.forEach((one, row) => {
    weights.forEach((other, column) => {
      placement += one * other * placeCovariance(alignment, places[row] as number, places[column] as number);
    });
  });
  const tension = ONE_PART_SHARE * tensionBetween(change.sameMeasurer, tape);
  return {
    at: divided.at,
    far: { girthRatio: far.girthRatio, expectedRatio: far.expectedRatio },
    near: { girthRatio: near.girthRatio, expectedRatio: near.expectedRatio },
    ratio: far.girthRatio / near.girthRatio,
    expectedRatio: far.expectedRatio / near.expectedRatio,
    ownVariance: (tape.readingMm ** 2 * (far.gain + near.gain)) / 4 + placement,
    tensionVariance: 2 * tension * tension,
  };
}

/** Where the two parts meet on the earlier ruler: the middle landmark if both sides of it were taped well enough, else the middle. */
function divide({ earlier, later, measured }: LimbChange): { readonly at: LandmarkId | null; readonly placeMm: number } | undefined {
  const { fromMm, toMm } = measured.shared.earlier;
  const rungs = earlier.placed.line.placesMm.filter((place) => place >= fromMm && place <= toMm);
  const isTaped = (placeMm: number): boolean =>
    rungs.filter((place) => place < placeMm).length >= FEWEST_RUNGS && rungs.filter((place) => place > placeMm).length >= FEWEST_RUNGS;
  const [, middle] = LIMBS[later.ladder.limb].landmarks;
  const landmark = earlier.placed.landmarks.get(middle)?.placeMm;
  if (landmark !== undefined && isTaped(landmark)) return { at: middle, placeMm: landmark };
  const placeMm = (fromMm + toMm) / 2;
  return isTaped(placeMm) ? { at: null, placeMm } : undefined;
}

/** One part at the later visit: volume mm³, length mm; Σg² / V² of both visits; girth ratios. */
type Part = PartChange & { readonly volume: number; readonly length: number; readonly gain: number };

function partOf(
  earlier: TapedLine,
  later: TapedLine,
  before: Span,
  after: Span,
  expectedAt: (earlierPlaceMm: number) => number,
): Part | undefined {
  const grownMm = earlier.girthsMm.map((girth, rung) => girth * expectedAt(earlier.placesMm[rung] as number));
  const was = spanVolume(earlier.placesMm, earlier.girthsMm, before);
  const grown = spanVolume(earlier.placesMm, grownMm, before);
  const volume = spanVolume(later.placesMm, later.girthsMm, after);
  if (was === undefined || grown === undefined || volume === undefined) return undefined;
  const length = after.toMm - after.fromMm;
  return {
    volume,
    length,
    girthRatio: Math.sqrt((volume / length) * ((before.toMm - before.fromMm) / was)),
    expectedRatio: Math.sqrt(grown / was),
    gain:
      readingGain(earlier.placesMm, earlier.girthsMm, before) / was ** 2 + readingGain(later.placesMm, later.girthsMm, after) / volume ** 2,
  };
}
