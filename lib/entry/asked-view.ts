import type { LimbOnSheet } from '../doubts/limb-on-sheet';
import { sheetDoubts } from '../doubts/sheet-doubts';
import { lastVisitLine, type TapingDay } from '../growth/expected-ladder';
import type { Doubt } from '../ladder/doubt';
import type { Side } from '../ladder/limb';
import { readMass } from '../units/mass';
import { readLength } from '../units/read-length';
import type { SheetRow } from '../visit-form/entry-rows';
import { cellKey, type LimbSheet, type VisitForm } from '../visit-form/visit-form';
import type { Known } from './entry-data';
import { type SheetView, typedView } from './typed-view';

/** Everything that follows from what is typed on one sheet. Pure, and cheap enough for each keystroke. */
export function sheetView(form: VisitForm, group: number, data: Known): SheetView | undefined {
  const typed = typedView(form, group, data);
  if (!typed) return undefined;
  const { sheet, rows } = typed;
  const today = tapingDay(form, data);
  const sides = typed.sides.map((one) => ({ ...one, before: one.last && lastVisitLine(one.last, one.ladder, today, one.affected) }));
  const limbs = sides.map(({ side, ladder, affected, last }): LimbOnSheet => {
    const rowsMm = rows.flatMap((row) => (row.at[side] ? [row.at[side].nm / 1e6] : []));
    return { ladder, rowsMm, affected, last };
  });
  const questions = sheetDoubts(limbs, today).flatMap(({ side, doubt }) => {
    const row = rowOf(sheet, rows, side, doubt);
    return row === undefined ? [] : [{ side, row, whole: doubt.distanceMm === null, doubt }];
  });
  return { ...typed, sides, questions };
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
