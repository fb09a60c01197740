import { limbInWords } from '../ladder/limb';
import { showLength } from '../units/show-length';
import { cellKey, typedCount, type VisitForm } from '../visit-form/visit-form';
import { type Asked, withAsked } from './asked-by-server';
import type { Known } from './entry-data';
import type { SheetView } from './typed-view';
import type { VisitQuestion } from './visit-question';

/** What asks about a form: the whole of it or, where that is not there, what the server asked. */
export type Asking = {
  readonly viewOf: (form: VisitForm, group: number, data: Known) => SheetView | undefined;
  readonly ofVisit: (form: VisitForm, data: Known) => readonly VisitQuestion[];
};

/** What a person should know before a visit is finished, once: questions still open, and rungs left empty on a ladder that was begun. */
export function beforeFinish(form: VisitForm, data: Known, { viewOf, ofVisit }: Asking, asked: Asked | null = null): string[] {
  const aboutVisit = ofVisit(form, data).map(({ message }) => message);
  const ofLadders = form.sheets.flatMap((sheet, group) => {
    const view = viewOf(form, group, data);
    if (!view) return [];
    const open = withAsked(view.questions, group, form, asked).length;
    const questions = open === 0 ? [] : [`${open === 1 ? 'One question is' : `${open} questions are`} open.`];
    const empty = sheet.sides.flatMap((side) => {
      if (typedCount(sheet, side) === 0) return [];
      const places = view.rows.filter((row) => !sheet.cells[cellKey(side, row.key)]?.text.trim()).map((row) => row.at[side]);
      const shown = places.slice(0, 3).map((at) => (at ? `${showLength(at.nm / 1e6, sheet.unit, 16)} ${sheet.unit}` : 'the last place'));
      if (shown.length === 0) return [];
      return [
        `The ${limbInWords(sheet.limb, side)} has no girth at ${shown.join(', ')}${places.length > 3 ? ` and ${places.length - 3} more` : ''}.`,
      ];
    });
    return [...questions, ...empty];
  });
  return [...aboutVisit, ...ofLadders];
}
