import type { VisitForm } from '../visit-form/visit-form';

/**
 * The form with every kept doubt signed on the server: by the person who sends it, at the moment it came in.
 *
 * Doubts that `already` stand on record keep the signature they have. Whatever name or time the sheet sent counts for nothing.
 */
export function signedForm(form: VisitForm, by: string, at: Date, already?: VisitForm): VisitForm {
  const onRecord = new Set([
    ...(already?.keptBody ?? []).map(signature),
    ...(already?.measures ?? []).flatMap(({ kept }) => (kept ?? []).map(signature)),
    ...(already?.sheets.flatMap((sheet) => Object.values(sheet.cells).flatMap((cell) => (cell.kept ?? []).map(signature))) ?? []),
  ]);
  const signed = (kept: { kind: string; by: string; at: string }) =>
    onRecord.has(signature(kept)) ? kept : { ...kept, by, at: at.toISOString() };
  const sheets = form.sheets.map((sheet) => ({
    ...sheet,
    cells: Object.fromEntries(
      Object.entries(sheet.cells).map(([key, cell]) => [key, cell.kept ? { ...cell, kept: cell.kept.map(signed) } : cell]),
    ),
  }));
  const measures = form.measures?.map((one) => (one.kept ? { ...one, kept: one.kept.map(signed) } : one));
  return { ...form, sheets, ...(measures ? { measures } : {}), ...(form.keptBody ? { keptBody: form.keptBody.map(signed) } : {}) };
}

function signature({ kind, by, at }: { readonly kind: string; readonly by: string; readonly at: string }): string {
  return `${kind}|${by}|${at}`;
}
