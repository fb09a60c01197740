import type { PlacedLine } from '../alignment/place-landmarks';
import { LIMBS, type LimbKind } from '../ladder/limb';
import { isNoAnswer, type NoAnswer } from '../outcome';
import { type LimbVolume, limbVolume } from './limb-volume';
import type { TapeError } from './tape-error';

/** The trade's names of the two segments of a limb, from the far end. */
const SEGMENT_NAMES: Readonly<Record<LimbKind, readonly [string, string]>> = { leg: ['lower leg', 'thigh'], arm: ['forearm', 'upper arm'] };

/** One named segment of a limb with its volume, or why there is none; `part` when the ladder does not tape all of it. */
export type NamedSegment = { readonly name: string; readonly volume: LimbVolume | NoAnswer; readonly part: boolean };

/**
 * Volumes of the named segments: lower leg and thigh, forearm and upper arm, cut exactly at the middle landmark.
 *
 * A segment that the ladder tapes only in part is given for the taped part and says so; nothing is extrapolated.
 * Shape: a placed line (mm), its limb, tape error and tension share; millilitres. Refuses by name where the middle landmark is not placed.
 * Source: frusta with linear girth, so that cutting one at a landmark is exact.
 * Example: rungs 40–600 mm, knee 280, crease 0: lower leg over 40–280 mm (part), thigh over 280 mm to the fold or the last rung.
 */
export function namedSegments(placed: PlacedLine, limb: LimbKind, tape: TapeError, tension: number): NamedSegment[] {
  const [distalId, middleId, proximalId] = LIMBS[limb].landmarks;
  const [lowerName, upperName] = SEGMENT_NAMES[limb];
  const middle = placed.landmarks.get(middleId)?.placeMm;
  const first = placed.line.placesMm[0];
  const last = placed.line.placesMm.at(-1);
  if (middle === undefined || first === undefined || last === undefined) {
    const volume: NoAnswer = { noAnswer: 'The landmark between the segments was not measured.' };
    return [
      { name: lowerName, volume, part: false },
      { name: upperName, volume, part: false },
    ];
  }
  const segment = (name: string, from: number | undefined, to: number | undefined): NamedSegment => {
    const fromMm = Math.max(from ?? first, first);
    const toMm = Math.min(to ?? last, last);
    const volume =
      toMm > fromMm ? limbVolume(placed.line, tape, tension, { fromMm, toMm }) : { noAnswer: 'No two places of it were measured.' };
    return { name, volume, part: !isNoAnswer(volume) && (from === undefined || to === undefined || fromMm > from + 1 || toMm < to - 1) };
  };
  return [
    segment(lowerName, placed.landmarks.get(distalId)?.placeMm, middle),
    segment(upperName, middle, placed.landmarks.get(proximalId)?.placeMm),
  ];
}
