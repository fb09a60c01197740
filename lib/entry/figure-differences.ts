import { capitalized } from '../units/capitalized';
import type { VisitForm } from '../visit-form/visit-form';
import { boxInWords } from './box-in-words';
import { figuresOf } from './changed-figures';

/** One box that two versions of a visit fill differently. */
export type FigureDifference = { readonly where: string; readonly one: string; readonly other: string };

/** Every box in which two versions of a visit differ, in words, figures first and then what is said of the visit. */
export function figureDifferences(one: VisitForm, other: VisitForm): FigureDifference[] {
  const [first, second] = [withFacts(one), withFacts(other)];
  return [...new Set([...first.keys(), ...second.keys()])]
    .filter((key) => first.get(key) !== second.get(key))
    .map((key) => ({
      where: capitalized(boxInWords(key, first.has(key) ? one : other)),
      one: first.get(key) ?? '–',
      other: second.get(key) ?? '–',
    }));
}

function withFacts(form: VisitForm): Map<string, string> {
  const figures = figuresOf(form);
  const facts = { day: form.day, time: form.time, posture: form.posture, 'measured by': form.measurer, note: form.note };
  for (const [name, text] of Object.entries(facts)) if (text.trim() !== '') figures.set(name, text.trim());
  for (const one of form.measures ?? [])
    if (one.kept?.length) figures.set(`measure/${one.side}/${one.measure}/kept`, one.kept.map(({ kind }) => kind).join(', '));
  for (const [index, sheet] of form.sheets.entries()) {
    figures.set(`ruler ${index + 1}`, `zero ${sheet.zero}, ${sheet.direction}, every ${sheet.interval || '–'} ${sheet.unit}`);
    for (const [key, cell] of Object.entries(sheet.cells))
      if (cell.kept?.length) figures.set(`${index}/${key}/kept`, cell.kept.map((kept) => kept.kind).join(', '));
  }
  return figures;
}
