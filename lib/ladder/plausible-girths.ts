import type { LimbKind } from './limb';

type Range = {
  readonly place: number;
  readonly least: number;
  readonly most: number;
};

/**
 * Smallest and largest girths of healthy people of two years and more by place along the limb, mm; most with room for swelling.
 *
 * Source: smallest and largest values of ankle, calf, knee, thigh, wrist, forearm and upper arm in ANSUR II 2012, NHANES 2003–2006 and
 * Snyder 1977; the upper edge raised by a quarter (clinic default). Used only to tell inches from centimetres at a first visit.
 */
const RANGES: Readonly<Record<LimbKind, readonly Range[]>> = {
  leg: [
    { place: 0, least: 121, most: 400 },
    { place: 0.7, least: 160, most: 640 },
    { place: 1, least: 180, most: 680 },
    { place: 1.5, least: 230, most: 950 },
    { place: 2, least: 260, most: 1100 },
  ],
  arm: [
    { place: 0, least: 92, most: 270 },
    { place: 0.7, least: 115, most: 460 },
    { place: 1, least: 115, most: 500 },
    { place: 2, least: 120, most: 700 },
  ],
};

/**
 * The range at an anatomical place: 0 at the distal landmark, 1 at the middle one, 2 at the proximal one; linear between.
 * Example: a leg at the ankle crease → 121 to 400 mm.
 */
export function plausibleGirths(limb: LimbKind, place: number): { readonly least: number; readonly most: number } {
  const ranges = RANGES[limb];
  const inside = Math.min(Math.max(place, 0), 2);
  const above = Math.max(
    ranges.findIndex((range) => range.place >= inside),
    1,
  );
  const [low, high] = [ranges[above - 1], ranges[above]] as [Range, Range];
  const share = (inside - low.place) / (high.place - low.place);
  return {
    least: low.least + share * (high.least - low.least),
    most: low.most + share * (high.most - low.most),
  };
}
