import { capitalized } from '../units/capitalized';
import { mm } from '../units/length';
import { showLengthWithUnit } from '../units/show-length';
import { isAcknowledged } from './acknowledged';
import type { Doubt } from './doubt';
import type { Ladder } from './ladder';
import { LIMBS, type LimbKind, placeInWords } from './limb';

type Shares = {
  readonly middle: readonly [number, number];
  readonly proximal: readonly [number, number];
};

/**
 * How far the middle and the proximal landmark may lie from the distal one, as shares of body height, before it is asked about.
 *
 * Leg: malleolus to mid-patella 0.2365 H (SD 0.0094), to the fold 0.361 H at 2 years to 0.44 H grown (SD 0.018; ANSUR II 2012, Snyder
 * 1977): mean ± 3 SD and room for a crease above the malleolus. Arm: wrist to axilla 0.274 H (SD 0.013), not above 0.36 H; elbow from memory.
 */
const SHARES: Readonly<Record<LimbKind, Shares>> = {
  leg: { middle: [0.17, 0.28], proximal: [0.29, 0.49] },
  arm: { middle: [0.1, 0.19], proximal: [0.2, 0.36] },
};

/** The longest ladder of a limb as a share of body height, and without a height, mm: hip and shoulder with room. Clinic default. */
const LONGEST: Readonly<Record<LimbKind, { readonly share: number; readonly mm: number }>> = {
  leg: { share: 0.58, mm: 1150 },
  arm: { share: 0.42, mm: 850 },
};

/** Whether a ladder is longer than the limb of anybody of that height can be. Example: 24 rungs every 15 cm make a leg of 3.6 m. */
export function longerThanBody(ladder: Ladder, bodyHeightMm: number | undefined): Doubt | undefined {
  const longest = LONGEST[ladder.limb];
  const most = bodyHeightMm === undefined ? longest.mm : longest.share * bodyHeightMm;
  const length = Math.max(0, ...ladder.rungs.map(({ distance }) => mm(distance.nm)));
  if (length <= most) return undefined;
  const whose = bodyHeightMm === undefined ? 'Nobody’s' : 'At this height no';
  const message = `Is the interval right? The ladder is ${showLengthWithUnit(length, ladder.unit)} long. ${whose} ${ladder.limb} is longer than ${showLengthWithUnit(most, ladder.unit)}.`;
  return { kind: 'body-size', distanceMm: null, message };
}

/**
 * Whether the length and the landmarks of a ladder fit the person's height; of landmarks nothing is asked without a height.
 *
 * Shape: a ladder, body height in mm; a doubt about the whole ladder, or undefined. Source: `SHARES`.
 * Example: a child of 1,400 mm with the gluteal fold at 900 mm: 0.64 of the height, asked.
 */
export function sizeCheck(ladder: Ladder, bodyHeightMm: number | undefined): Doubt | undefined {
  const long = longerThanBody(ladder, bodyHeightMm);
  if (long) return isAcknowledged(ladder, long) ? undefined : long;
  if (bodyHeightMm === undefined) return undefined;
  const [distal, middle, proximal] = LIMBS[ladder.limb].landmarks;
  const at = (landmark: string): number | undefined => {
    if (landmark === ladder.zero) return 0;
    const found = ladder.landmarks.find((one) => one.landmark === landmark);
    return found && mm(found.distance.nm);
  };
  const start = at(distal);
  if (start === undefined) return undefined;
  for (const [landmark, [least, most]] of [
    [middle, SHARES[ladder.limb].middle],
    [proximal, SHARES[ladder.limb].proximal],
  ] as const) {
    const place = at(landmark);
    if (place === undefined) continue;
    const length = Math.abs(place - start);
    if (length >= least * bodyHeightMm && length <= most * bodyHeightMm) continue;
    const usual = `${showLengthWithUnit(least * bodyHeightMm, ladder.unit)} to ${showLengthWithUnit(most * bodyHeightMm, ladder.unit)}`;
    const message = `${placeInWords(landmark)} at ${showLengthWithUnit(length, ladder.unit)}? At this height it is usually ${usual} from the ${placeInWords(distal)}.`;
    const doubt: Doubt = {
      kind: 'body-size',
      distanceMm: null,
      message: capitalized(message),
    };
    return isAcknowledged(ladder, doubt) ? undefined : doubt;
  }
  return undefined;
}
