import { placeInWords, type Side } from '@/lib/ladder/limb';
import { capitalized } from '@/lib/units/capitalized';
import { typedLandmarks } from '@/lib/visit-form/entry-rows';
import { type LimbSheet, type MarkName, markKey } from '@/lib/visit-form/visit-form';

/** A landmark of the ruler, or the fold's height above the floor: a row of the table with a box for each side, or one for both. */
export type SheetMark = { readonly mark: MarkName; readonly name: string; readonly of: string };

/** The marks of a sheet in the order in which they are typed. */
export function sheetMarks(sheet: LimbSheet): SheetMark[] {
  const marks: SheetMark[] = typedLandmarks(sheet).map((landmark) => ({
    mark: landmark,
    name: capitalized(placeInWords(landmark)),
    of: 'at',
  }));
  return sheet.limb === 'leg' ? [...marks, { mark: 'floor', name: 'Fold', of: 'above floor' }] : marks;
}

/** The sides whose marks are typed: each one, or the first for both. */
export function markSides({ apart, sides }: LimbSheet): readonly Side[] {
  return apart ? sides : sides.slice(0, 1);
}

/** The id of a mark's box, by which it is focused from anywhere. */
export function markId(side: Side, mark: MarkName): string {
  return `box-${side}-${mark}`;
}

/** `Gluteal fold at, in`, `Left fold at, in` */
export function markLabel(sheet: LimbSheet, side: Side, { mark, name, of }: SheetMark): string {
  if (!sheet.apart) return `${name} ${of}, ${sheet.unit}`;
  return `${capitalized(side)} ${mark === 'floor' ? 'fold' : shortName(mark)} ${of}, ${sheet.unit}`;
}

/** A mark on one side, or on both where both are typed once. */
export function withMark(sheet: LimbSheet, side: Side, mark: MarkName, text: string): LimbSheet {
  const sides = sheet.apart ? [side] : sheet.sides;
  return { ...sheet, marks: { ...sheet.marks, ...Object.fromEntries(sides.map((one) => [markKey(one, mark), text])) } };
}

/** The boxes of all marks, in the order of typing: one side whole, then the other. */
export function markBoxes(sheet: LimbSheet): { readonly side: Side; readonly mark: MarkName }[] {
  return markSides(sheet).flatMap((side) => sheetMarks(sheet).map(({ mark }) => ({ side, mark })));
}

/** The word that tells a landmark from its neighbours: `fold`, `knee`, `elbow`. */
function shortName(landmark: MarkName): string {
  const words = placeInWords(landmark).split(' ');
  return words.at(words.at(-1) === 'fold' ? -1 : 0) ?? '';
}
