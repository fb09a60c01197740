import type { ReferenceLine } from '../alignment/reference-line';
import { SPREAD } from '../ladder/doubt-limits';
import type { Ladder } from '../ladder/ladder';
import { LIMBS, type LimbKind } from '../ladder/limb';
import { tapedLine } from '../ladder/taped-line';
import { anatomicalPlace } from './anatomical-place';
import type { TapingDay } from './expected-ladder';

type Shape = { readonly from: number; readonly to: number; readonly girthsMm: readonly number[] };

/**
 * Girth along a limb of usual shape, mm, at even steps of anatomical place (0 distal, 1 middle, 2 proximal landmark).
 *
 * Source: mean of seven model bodies sliced every centimetre (CC0 mesh), scaled to the mean of ANSUR II 2012 at ankle and wrist. The
 * same four leg girths of 6,068 people of ANSUR II, with level and tilt taken out, scatter by 1.5 to 2.7 % about their own mean shape.
 */
const SHAPES: Readonly<Record<LimbKind, Shape>> = {
  leg: {
    from: 0.2,
    to: 2,
    girthsMm: [222, 252, 290, 325, 355, 367, 363, 352, 353, 368, 385, 408, 435, 461, 483, 500, 516, 532, 549],
  },
  arm: {
    from: 0.05,
    to: 2,
    girthsMm: [165, 180, 198, 218, 235, 252, 267, 273, 278, 292, 290, 296, 301, 304, 307, 313, 322, 337, 361],
  },
};

/**
 * The usual shape of a limb as a reference for a first visit. Its level and tilt are left to the ladder itself.
 *
 * Undefined unless a landmark besides zero, or the height, says where along the limb a rung lies. Shape: a ladder and the day; girths in
 * mm by distance from zero. Example: ankle 20.5, calf 66, knee 35 cm: the calf is no calf of that leg; 36 would be.
 */
export function usualShapeLine(ladder: Ladder, today: TapingDay, swollen: boolean): ReferenceLine | undefined {
  const { landmarks } = tapedLine(ladder);
  const heightMm = today.body.heightMm?.value;
  const [distal, middle, proximal] = LIMBS[ladder.limb].landmarks;
  const placed = landmarks.has(middle) || (landmarks.has(distal) && landmarks.has(proximal));
  if (landmarks.size === 0 || (!placed && heightMm === undefined)) return undefined;
  const place = anatomicalPlace(ladder.limb, (landmark) => landmarks.get(landmark), heightMm);
  const sign = ladder.direction === 'up' ? 1 : -1;
  return {
    kind: 'neighbours',
    words: '',
    shownMm: () => undefined,
    expectedMm: (distanceMm) => girthOfShape(SHAPES[ladder.limb], place(sign * distanceMm)),
    ladders: () => 1,
    readingMm: today.tape.readingMm,
    spread: swollen ? SPREAD.shapeSwollen : SPREAD.shape,
  };
}

/** Below the shape, towards the ankle or wrist, a girth is about that of its thinnest place: ANSUR II 2012 at 0.13 of the way to the knee. */
function girthOfShape(shape: Shape, place: number): number | undefined {
  const last = shape.girthsMm.length - 1;
  const step = ((place - shape.from) / (shape.to - shape.from)) * last;
  if (place < 0 || step > last + 1.2) return undefined;
  if (step < 0) return shape.girthsMm[0];
  const below = Math.min(Math.floor(step), last - 1);
  const [low, high] = [shape.girthsMm[below], shape.girthsMm[below + 1]] as [number, number];
  return low + (step - below) * (high - low);
}
