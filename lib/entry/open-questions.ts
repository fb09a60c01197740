import type { VisitForm } from '../visit-form/visit-form';
import { type QuestionOnForm, questionKey, type Unasked } from './asked-by-server';
import { sheetView } from './asked-view';
import type { Known } from './entry-data';
import { visitQuestionKey } from './visit-question';
import { visitQuestions } from './visit-questions';

/** Every question that is open on a form: neither kept nor set right. The same on the sheet and on the server. */
export function openQuestions(form: VisitForm, known: Known): QuestionOnForm[] {
  return form.sheets.flatMap((_, group) => (sheetView(form, group, known)?.questions ?? []).map((question) => ({ ...question, group })));
}

/** The open questions that nobody has seen: those not among the ones that the sheet showed and its writer chose to leave open. */
export function unasked(form: VisitForm, known: Known, leftOpen: readonly string[]): Unasked {
  return {
    asks: openQuestions(form, known).filter((question) => !leftOpen.includes(questionKey(question))),
    ofVisit: visitQuestions(form, known).filter((question) => !leftOpen.includes(visitQuestionKey(question))),
  };
}

/** The open questions that were seen and left so, in words for the log. Example: `right: 10½ in: 21⅛ or 12⅛?` */
export function leftOpenInWords(form: VisitForm, known: Known): string[] {
  const questionOf = (message: string) => message.slice(0, message.indexOf('?') + 1);
  return [
    ...openQuestions(form, known).map(({ side, doubt }) => `${side}: ${questionOf(doubt.message)}`),
    ...visitQuestions(form, known).map(({ message }) => questionOf(message)),
  ];
}
