import type { ReferenceLine } from '../alignment/reference-line';
import type { LastLadder } from '../growth/expected-ladder';
import type { Doubt } from '../ladder/doubt';
import type { Side } from '../ladder/limb';
import { type SheetRow, sheetRows } from '../visit-form/entry-rows';
import { type ReadLadder, readSheetSide } from '../visit-form/read-sheet-side';
import type { LimbSheet, VisitForm } from '../visit-form/visit-form';
import { type Known, limbKey } from './entry-data';

/** A question on the sheet: on which side and row it stands (the last filled row for one about the whole ladder). */
export type OpenQuestion = { readonly side: Side; readonly row: string; readonly whole: boolean; readonly doubt: Doubt };

/** One side of a sheet as it stands. */
export type SideView = {
  readonly side: Side;
  readonly ladder: ReadLadder;
  readonly affected: boolean;
  readonly last: LastLadder | undefined;
  /** What the last visit taped at places of this ladder. */
  readonly before: ReferenceLine | undefined;
};

/** A sheet of one kind of limb with everything that follows from its figures. */
export type SheetView = {
  readonly sheet: LimbSheet;
  readonly rows: readonly SheetRow[];
  readonly sides: readonly SideView[];
  readonly questions: readonly OpenQuestion[];
};

/** One sheet as far as its figures can be read by themselves: nothing of the last visit beside them, and nothing asked. */
export function typedView(form: VisitForm, group: number, data: Known): SheetView | undefined {
  const sheet = form.sheets[group];
  if (!sheet) return undefined;
  const sides = sheet.sides.map((side): SideView => {
    const key = limbKey(sheet.limb, side);
    const { ladder } = readSheetSide(sheet, side);
    return { side, ladder, affected: data.affected.includes(key), last: data.last[key], before: undefined };
  });
  return { sheet, rows: sheetRows(sheet), sides, questions: [] };
}
