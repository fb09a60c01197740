import type { NoAnswer } from '../outcome';
import type { Piece } from '../record/patient-record';
import type { FitToday, PlaceFit } from './fit-today';
import { fitsOfSet, type LimbOfSet } from './limbs-of-set';
import { relativeTightness } from './tightness';
import { type FabricWear, sideOfBand } from './worn-fit';

/** A piece as far as its places are held against its band. */
type JudgedPiece = {
  readonly piece: Piece;
  readonly fit: FitToday | NoAnswer;
  readonly ofSet: readonly LimbOfSet[];
  readonly wear: FabricWear;
  readonly band: { readonly low: number; readonly high: number };
};

/** A place outside its band, and on which side of it. */
export type PlaceOutside = { readonly place: PlaceFit; readonly side: 'tighter' | 'looser' };

/**
 * The places of a fit that lie outside a band once wear is counted: the one count of prompt, report, form and table.
 *
 * A place counts only where it is still outside after its reading is drawn towards the rest of the limb, so that one rough reading orders
 * nothing and is not told either. Shape: a fit, the wear of its fabric, a band.
 * Example: one rung read 3 mm too large on a limb that did not change: none.
 */
export function outsideOfFit(fit: FitToday, wear: FabricWear, band: JudgedPiece['band']): readonly PlaceOutside[] {
  return fit.places.flatMap((place) => {
    const evenedGirth = place.cutFromGirthMm * place.evenedRatio;
    const evened = relativeTightness(place.relaxedNowMm, evenedGirth, place.cutFromGirthMm, place.relaxedMm);
    const side = sideOfBand(place.tightness, wear, band);
    return side && sideOfBand(evened, wear, band) === side ? [{ place, side }] : [];
  });
}

/** The places of a piece outside its band, limb by limb as `fitsOfSet` has them; a limb whose fit is not known is not among them. */
export function placesOutside(
  one: JudgedPiece,
): readonly { readonly fit: FitToday; readonly onLimb: string; readonly outside: readonly PlaceOutside[] }[] {
  return fitsOfSet(one).map((limb) => ({ ...limb, outside: outsideOfFit(limb.fit, one.wear, one.band) }));
}
