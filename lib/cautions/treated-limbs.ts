import type { LimbKind } from '../ladder/limb';
import type { Piece, WornPlace } from '../record/patient-record';
import type { CautionAbout } from './caution-card';

/** Pieces not out of use by the day: worn, at hand or to come. */
export function piecesAbout({ record, today }: Pick<CautionAbout, 'record' | 'today'>): readonly Piece[] {
  return record.pieces.filter((piece) => piece.retired === null || piece.retired > today);
}

/** Whether this limb wears a garment or is about to: a piece not out of use, or marked as affected. */
export function isTreated(about: Pick<CautionAbout, 'record' | 'today'>, { limb, side }: WornPlace): boolean {
  const is = (one: WornPlace) => one.limb === limb && one.side === side;
  return piecesAbout(about).some(is) || about.record.affected.some(is);
}

/** Why cards of a limb are asked, or undefined where no garment is worn or planned there. */
export function garmentFor(about: Pick<CautionAbout, 'record' | 'today'>, limb: LimbKind): readonly string[] | undefined {
  const either = (['left', 'right'] as const).some((side) => isTreated(about, { limb, side }));
  return either ? [`garment for ${limb === 'leg' ? 'a leg' : 'an arm'}`] : undefined;
}
