import type { LimbPicture, PictureLimb } from './limb-picture';
import { type Frame, halfWidth } from './outline-path';

const TOP = 44;
const BOTTOM = 46;
const FIGURES = 46;
const STRIP = 44;
/** From one tightness strip to the next when two pieces lie on a limb, px. */
export const STRIP_STEP = STRIP + 4;
const STRIP_GAP = 20;
const TAPE = 40;
const GAP = 30;
const NO_LIMB = 40;
const EDGE = 4;
/** True proportion at most: 22 px an inch, both axes. */
const MOST_SCALE = 22 / 25.4;

/** Where one limb stands: its centre line, its figures and the first of its strips. */
export type LimbPlace = {
  readonly limb: PictureLimb;
  readonly centreX: number;
  readonly figuresX: number;
  readonly anchor: 'end' | 'start';
  readonly stripX: number;
};

export type OutlineLayout = {
  readonly frame: Frame;
  readonly width: number;
  readonly height: number;
  readonly tapeX: number;
  readonly limbs: readonly LimbPlace[];
  /** From the outer edge of one limb to that of the other: how far landmark lines run. */
  readonly fromX: number;
  readonly toX: number;
};

/**
 * Places of limbs, tape, figures and strips on the page, as one faces the patient: the right limb at the viewer's left.
 *
 * One scale for both axes, the largest that fits the given size and is no larger than 22 px an inch. A single limb keeps its own place.
 */
export function outlineLayout(picture: LimbPicture, heightPx: number, widthPx: number): OutlineLayout {
  const heights = [...picture.limbs.flatMap((limb) => [...limb.heightsMm]), ...picture.landmarks.map((landmark) => landmark.heightMm)];
  const topMm = Math.max(...heights);
  const bottomMm = Math.min(...heights);
  const widest = Math.max(...picture.limbs.flatMap((limb) => [...limb.girthsMm]));
  const right = picture.limbs.find((limb) => limb.side === 'right');
  const left = picture.limbs.find((limb) => limb.side === 'left');
  const fixed = 2 * EDGE + TAPE + [right, left].reduce((sum, limb) => sum + (limb ? stripsOf(limb) + FIGURES + GAP : NO_LIMB), 0);
  const perMm = 2 * halfWidth(widest, 1);
  const scale = Math.min(MOST_SCALE, (heightPx - TOP - BOTTOM) / (topMm - bottomMm), (widthPx - fixed) / picture.limbs.length / perMm);
  const limbPx = perMm * scale;
  const limbs: LimbPlace[] = [];
  let x = EDGE;
  if (right) {
    const strips = stripsOf(right);
    const start = x + strips + FIGURES;
    limbs.push({
      limb: right,
      centreX: start + limbPx / 2,
      figuresX: start - 8,
      anchor: 'end',
      stripX: x + strips - STRIP - STRIP_GAP,
    });
    x = start + limbPx + GAP;
  } else x += NO_LIMB;
  const tapeX = x + TAPE / 2;
  x += TAPE;
  if (left) {
    x += GAP + limbPx;
    limbs.push({
      limb: left,
      centreX: x - limbPx / 2,
      figuresX: x + 8,
      anchor: 'start',
      stripX: x + FIGURES + STRIP_GAP,
    });
  } else x += NO_LIMB;
  return {
    frame: { scale, centreX: 0, zeroY: TOP + topMm * scale },
    width: x + (left ? FIGURES + stripsOf(left) : 0) + EDGE,
    height: TOP + (topMm - bottomMm) * scale + BOTTOM,
    tapeX,
    limbs,
    fromX: right ? EDGE + stripsOf(right) + FIGURES : tapeX - TAPE,
    toX: left ? x : tapeX + TAPE,
  };
}

function stripsOf(limb: PictureLimb): number {
  return limb.strips.length > 0 ? limb.strips.length * STRIP_STEP + STRIP_GAP : 0;
}
