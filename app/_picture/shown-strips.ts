import type { LimbPicture, PictureLimb, PictureStrip } from './limb-picture';

/** The strips of tightness that are drawn beside each limb, and the pieces whose strips had no room. */
export type ShownStrips = {
  readonly of: (limb: PictureLimb) => readonly PictureStrip[];
  readonly left: readonly string[];
};

/**
 * As many strips beside each limb as the picture has room for, at least one: those farthest from the fitting, in the pieces' order.
 *
 * A limb that wears eight pieces of four cuts would otherwise leave no room for itself; the table has them all.
 */
export function shownStrips(picture: LimbPicture, most: number): ShownStrips {
  const kept = new Map(picture.limbs.map((limb) => [limb, farthest(limb.strips, Math.max(most, 1))]));
  const left = picture.limbs.flatMap((limb) => limb.strips.filter((strip) => !kept.get(limb)?.includes(strip)).map((strip) => strip.piece));
  return { of: (limb) => kept.get(limb) ?? [], left };
}

function farthest(strips: readonly PictureStrip[], most: number): readonly PictureStrip[] {
  const chosen = [...strips].sort((one, other) => reach(other) - reach(one)).slice(0, most);
  return strips.filter((strip) => chosen.includes(strip));
}

function reach({ cells }: PictureStrip): number {
  return Math.max(0, ...cells.map((cell) => Math.abs(cell.tightness - 1)));
}
