import type { VisitForm } from '../visit-form/visit-form';

/**
 * How many figures differ between what is typed and what the server holds: girths, marks, height and weight.
 * Example: one girth typed anew and a weight taken out are two.
 */
export function changedFigures(now: VisitForm, kept: VisitForm | null): number {
  const [typed, there] = [figuresOf(now), kept ? figuresOf(kept) : new Map<string, string>()];
  let changed = 0;
  for (const [where, text] of typed) if (there.get(where) !== text) changed += 1;
  for (const where of there.keys()) if (!typed.has(where)) changed += 1;
  return changed;
}

/** Every measured text of a form by where it stands. */
export function figuresOf(form: VisitForm): Map<string, string> {
  const figures = new Map<string, string>();
  const put = (where: string, text: string | undefined) => text?.trim() && figures.set(where, text.trim());
  put('height', form.height);
  put('weight', form.weight);
  for (const [index, sheet] of form.sheets.entries()) {
    for (const [key, text] of Object.entries(sheet.marks)) put(`${index}/${key}`, text);
    for (const [key, cell] of Object.entries(sheet.cells)) {
      put(`${index}/${key}`, cell.text);
      put(`${index}/${key}/again`, cell.again);
    }
  }
  for (const one of form.measures ?? []) {
    put(`measure/${one.side}/${one.measure}`, one.text);
    put(`measure/${one.side}/${one.measure}/again`, one.again);
  }
  for (const reading of form.readings) put(`reading ${reading.name}`, reading.text);
  return figures;
}
