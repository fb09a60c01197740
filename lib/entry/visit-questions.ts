import { bodyDoubts } from '../doubts/body-doubts';
import { readMass } from '../units/mass';
import { readLength } from '../units/read-length';
import type { VisitForm } from '../visit-form/visit-form';
import type { Known } from './entry-data';
import { measureQuestions } from './measure-questions';
import { secondVisit, type VisitQuestion } from './visit-question';

/** Every question about the visit itself that is neither kept nor answered. The same on the sheet and on the server. */
export function visitQuestions(form: VisitForm, known: Known): VisitQuestion[] {
  const height = form.height.trim() === '' ? undefined : readLength(form.height, form.heightUnit);
  const weight = form.weight.trim() === '' ? undefined : readMass(form.weight, form.massUnit);
  const body = { height: height?.kind === 'read' ? height.value : null, weight: weight?.kind === 'read' ? weight.value : null };
  const kept = new Set((form.keptBody ?? []).map(({ kind }) => kind));
  const ofBody = bodyDoubts(body, known.expectedBody, known.bodyLimits)
    .filter(({ kind }) => !kept.has(kind))
    .map(({ kind, message, wouldFit }) => ({ kind, message, about: form[kind].trim(), ...(wouldFit ? { wouldFit } : {}) }));
  const ofMeasures = measureQuestions(form, known.measures, known.born).map(
    ({ where, doubt, text, message }): VisitQuestion => ({ kind: 'measure', where, message, about: `${where} ${text} ${doubt}` }),
  );
  const second = secondVisit(form, known);
  return [...ofBody, ...ofMeasures, ...(second && !form.occasion ? [second] : [])];
}
