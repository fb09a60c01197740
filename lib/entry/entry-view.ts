import type { ReferenceLine } from '../alignment/reference-line';
import type { LimbOnSheet } from '../doubts/limb-on-sheet';
import { sheetDoubts } from '../doubts/sheet-doubts';
import { type LastLadder, lastVisitLine, type TapingDay } from '../growth/expected-ladder';
import type { Doubt } from '../ladder/doubt';
import type { Side } from '../ladder/limb';
import { readMass } from '../units/mass';
import { readLength } from '../units/read-length';
import { type SheetRow, sheetRows } from '../visit-form/entry-rows';
import { type ReadLadder, readSheetSide } from '../visit-form/read-sheet-side';
import { cellKey, type LimbSheet, type VisitForm } from '../visit-form/visit-form';
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

/** Everything that follows from what is typed on one sheet. Pure, and cheap enough for each keystroke. */
export function sheetView(form: VisitForm, group: number, data: Known): SheetView | undefined {
  const sheet = form.sheets[group];
  if (!sheet) return undefined;
  const rows = sheetRows(sheet);
  const today = tapingDay(form, data);
  const sides = sheet.sides.map((side): SideView => {
    const { ladder } = readSheetSide(sheet, side);
    const key = limbKey(sheet.limb, side);
    const affected = data.affected.includes(key);
    const last = data.last[key];
    return { side, ladder, affected, last, before: last && lastVisitLine(last, ladder, today, affected) };
  });
  const limbs = sides.map(({ side, ladder, affected, last }): LimbOnSheet => {
    const rowsMm = rows.flatMap((row) => (row.at[side] ? [row.at[side].nm / 1e6] : []));
    return { ladder, rowsMm, affected, last };
  });
  const questions = sheetDoubts(limbs, today).flatMap(({ side, doubt }) => {
    const row = rowOf(sheet, rows, side, doubt);
    return row === undefined ? [] : [{ side, row, whole: doubt.distanceMm === null, doubt }];
  });
  return { sheet, rows, sides, questions };
}

function rowOf(sheet: LimbSheet, rows: readonly SheetRow[], side: Side, doubt: Doubt): string | undefined {
  if (doubt.distanceMm !== null) return rows.find((row) => row.at[side] && row.at[side].nm / 1e6 === doubt.distanceMm)?.key;
  return rows.findLast((row) => sheet.cells[cellKey(side, row.key)]?.text)?.key ?? rows[0]?.key;
}

/** The day, height and weight that expectations are worked out for: as typed, else as on record near the day. */
function tapingDay(form: VisitForm, { bodyOnRecord, tape, today }: Known): TapingDay {
  const day = Math.floor(Date.parse(`${form.day}T00:00:00Z`) / 86_400_000) || 0;
  const height = form.height.trim() === '' ? undefined : readLength(form.height, form.heightUnit);
  const weight = form.weight.trim() === '' ? undefined : readMass(form.weight, form.massUnit);
  const near = { day: today, daysAway: 0 };
  const heightMm = height?.kind === 'read' ? { value: height.value.nm / 1e6, ...near } : bodyOnRecord.heightMm;
  const weightKg = weight?.kind === 'read' ? { value: weight.value.ng / 1e12, ...near } : bodyOnRecord.weightKg;
  return { day, body: { heightMm, weightKg }, tape };
}
