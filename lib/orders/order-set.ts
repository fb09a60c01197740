import type { GarmentSpec } from '../garment-forms/garment-catalogue';
import { formOf } from '../garment-forms/own-form';
import { coverKey } from '../garments/wear';
import type { Ladder } from '../ladder/ladder';
import { limbInWords } from '../ladder/limb';
import { partOfSideInWords } from '../parts/measure';
import { type GarmentSet, garmentSet, isOfSet } from '../record/garment-needs';
import { groupedBy } from '../record/grouped-by';
import type { Order, SentFigures } from '../record/order';
import type { NamedMeasure, Piece, Visit, WornPlace } from '../record/patient-record';

/** What an order's set depends on. */
type OrderedGarment = WornPlace & { readonly garment: Pick<GarmentSpec, 'form' | 'own'> };

/** The ladders and named measures that an order's garment is made to. */
export function orderSet({ limb, side, garment }: OrderedGarment): GarmentSet {
  return garmentSet(garment, { limb, side });
}

/** What an order is of, in words: `right leg`, `both legs`, `both legs and both arms`; by named measures alone `right hand`, `head`. */
export function orderedInWords(order: OrderedGarment): string {
  const madeTo = formOf(order.garment)?.madeTo;
  if (madeTo) return partOfSideInWords(madeTo, order.side);
  const { ladders } = orderSet(order);
  return [...new Set(ladders.map(({ limb }) => limb))]
    .map((limb) => (ladders.some((one) => one.limb === limb && one.side !== order.side) ? `both ${limb}s` : limbInWords(limb, order.side)))
    .join(' and ');
}

/** The ladders of a visit that belong to the order beside the one of its own limb, in the order of the set. */
export function furtherLadders(order: OrderedGarment, visit: Pick<Visit, 'ladders'>): readonly Ladder[] {
  return orderSet(order)
    .ladders.slice(1)
    .flatMap(({ limb, side }) => visit.ladders.filter((one) => one.limb === limb && one.side === side).slice(0, 1));
}

/** The named measures of a visit that belong to the order: every one of a part and side that the garment has. */
export function measuresOfOrder(order: OrderedGarment, visit: Pick<Visit, 'measures'>): readonly NamedMeasure[] {
  const set = orderSet(order);
  return (visit.measures ?? []).filter((taken) => isOfSet(set, taken));
}

/** Every ladder that an order was sent with, the one of its own limb first; none where named measures alone were. */
export function sentLadders({ ladder, further }: Pick<SentFigures, 'ladder' | 'further'>): readonly Ladder[] {
  return [...(ladder ? [ladder] : []), ...(further ?? [])];
}

/** Named measures part by part, each part in words: `right foot`, `trunk`. */
export function measuresByPart(measures: readonly NamedMeasure[]): { readonly words: string; readonly taken: readonly NamedMeasure[] }[] {
  const parts = groupedBy(measures, ({ part, side }) => partOfSideInWords(part, side));
  return [...parts].map(([words, taken]) => ({ words, taken }));
}

/** Whether an order replaces a piece: of the same cover (made to named measures alone, of the same form), on the order's own limb or another of its set. */
export function replaces(
  order: Pick<Order, 'limb' | 'side' | 'covers' | 'garment'>,
  piece: Pick<Piece, 'limb' | 'side' | 'covers' | 'garment'>,
): boolean {
  const places = order.covers === 'measures' ? [order] : orderSet(order).ladders;
  return places.some(({ limb, side }) => coverKey({ ...order, limb, side }) === coverKey(piece));
}
