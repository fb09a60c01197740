import type { LimbPicture, PictureLimb, PictureStrip } from './limb-picture';
import { type Frame, halfWidth } from './outline-path';
import { type ShownStrips, shownStrips } from './shown-strips';

const TOP = 50;
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
/** At most 40 px an inch, both axes: a child's short ladder is drawn larger than life on a tablet, and no larger. */
const MOST_SCALE = 40 / 25.4;
/** Strips give way before a limb is drawn at less than this part of the scale its height allows. */
const LEAST_OF_SCALE = 0.8;

/** Where one limb stands: its centre line, its figures and the first of its strips. */
export type LimbPlace = {
  readonly limb: PictureLimb;
  readonly centreX: number;
  readonly figuresX: number;
  readonly anchor: 'end' | 'start';
  readonly stripX: number;
  readonly strips: readonly PictureStrip[];
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
  /** Pieces whose strip of tightness had no room. */
  readonly notDrawn: readonly string[];
};

/**
 * Places of limbs, tape, figures and strips on the page, as one faces the patient: the right limb at the viewer's left.
 *
 * One scale for both axes, the largest that fits the given size and is no larger than 40 px an inch. A single limb keeps its own place.
 */
export function outlineLayout(picture: LimbPicture, heightPx: number, widthPx: number): OutlineLayout {
  const heights = [...picture.limbs.flatMap((limb) => [...limb.heightsMm]), ...picture.landmarks.map((landmark) => landmark.heightMm)];
  const topMm = Math.max(...heights);
  const bottomMm = Math.min(...heights);
  const widest = Math.max(...picture.limbs.flatMap((limb) => [...limb.girthsMm]));
  const right = picture.limbs.find((limb) => limb.side === 'right');
  const left = picture.limbs.find((limb) => limb.side === 'left');
  const perMm = 2 * halfWidth(widest, 1);
  const byHeight = Math.min(MOST_SCALE, (heightPx - TOP - BOTTOM) / (topMm - bottomMm));
  const byWidth = (shown: ShownStrips): number => {
    const beside = [right, left].reduce((sum, limb) => sum + (limb ? widthOf(shown.of(limb)) + FIGURES + GAP : NO_LIMB), 0);
    return (widthPx - 2 * EDGE - TAPE - beside) / picture.limbs.length / perMm;
  };
  let most = Math.max(1, ...picture.limbs.map((limb) => limb.strips.length));
  while (most > 1 && byWidth(shownStrips(picture, most)) < LEAST_OF_SCALE * byHeight) most -= 1;
  const shown = shownStrips(picture, most);
  const stripsOf = (limb: PictureLimb): number => widthOf(shown.of(limb));
  const scale = Math.min(byHeight, byWidth(shown));
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
      strips: shown.of(right),
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
      strips: shown.of(left),
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
    notDrawn: shown.left,
  };
}

function widthOf(strips: readonly PictureStrip[]): number {
  return strips.length > 0 ? strips.length * STRIP_STEP + STRIP_GAP : 0;
}
