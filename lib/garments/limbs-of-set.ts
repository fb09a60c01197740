import { LIMBS, type LimbKind, limbInWords } from '../ladder/limb';
import { isNoAnswer, type NoAnswer } from '../outcome';
import { garmentSet } from '../record/garment-needs';
import type { LimbSide, Piece, WornPlace } from '../record/patient-record';
import type { FitToday } from './fit-today';
import type { OutgrowDate } from './outgrow-date';
import type { RoomToGrow } from './room-to-grow';

/** How a garment of several ladders sits on one of its limbs, how long it will, and what room the next one needs there. */
export type LimbOfSet = WornPlace & {
  readonly fit: FitToday | NoAnswer;
  readonly outgrow: OutgrowDate | NoAnswer;
  readonly room: RoomToGrow | NoAnswer;
};

/** The limbs of a garment beside its own, in the order of its set; none where its form is not known or lies on one limb. */
export function furtherLimbs(piece: Pick<Piece, 'limb' | 'side' | 'garment'>): readonly LimbSide[] {
  return piece.garment ? garmentSet(piece.garment, piece).ladders.slice(1) : [];
}

/**
 * The piece as if it lay on another limb of its set alone.
 *
 * On a limb of the same kind a cover between landmarks is the same; else it is taken from the far landmark to the trunk.
 * Example: tights cut for the right leg from the ankle crease to the fold: the same stretch of the left leg.
 */
export function onLimb<T extends Pick<Piece, 'limb' | 'side' | 'covers'>>(piece: T, { limb, side }: LimbSide): T {
  if (piece.covers === 'measures') return { ...piece, limb, side };
  const { from, to } = piece.covers;
  const same = limb === piece.limb && typeof from === 'string' && typeof to === 'string';
  return { ...piece, limb, side, covers: same ? piece.covers : wholeOf(limb) };
}

function wholeOf(limb: LimbKind): Piece['covers'] {
  const [from, , to] = LIMBS[limb].landmarks;
  return { from, to };
}

/**
 * The outlook of the limb that ends the fit first: by the early day, then by the middle one; of limbs of which nothing is known, the first.
 * Example: left leg until March, right leg until January → the right one.
 */
export function worseOutlook(limbs: readonly [LimbOfSet, ...LimbOfSet[]]): LimbOfSet {
  const dayOf = ({ outgrow }: LimbOfSet) => (isNoAnswer(outgrow) ? 'z2' : `${outgrow.earlyDay ?? 'z1'} ${outgrow.day ?? 'z'}`);
  return limbs.reduce((worst, one) => (dayOf(one) < dayOf(worst) ? one : worst));
}

/** How a garment sits on each of its limbs, as far as that is known: its own first. `onLimb` is said of a further one: ` on the left leg`. */
export function fitsOfSet({
  piece,
  fit,
  ofSet,
}: {
  readonly piece: Piece;
  readonly fit: FitToday | NoAnswer;
  readonly ofSet: readonly LimbOfSet[];
}): readonly { readonly fit: FitToday; readonly onLimb: string }[] {
  const limbs = ofSet.length > 0 ? ofSet : [{ limb: piece.limb, side: piece.side, fit }];
  return limbs.flatMap((one) => {
    if (isNoAnswer(one.fit)) return [];
    const isOwn = one.limb === piece.limb && one.side === piece.side;
    return [{ fit: one.fit, onLimb: isOwn ? '' : ` on the ${limbInWords(one.limb, one.side)}` }];
  });
}
