import 'server-only';
import { todayIn } from '@/app/_auth/today';
import { clinicOf } from '@/db/clinic/clinic';
import { ownPartsOf } from '@/db/clinic/own-parts';
import { policyOf } from '@/db/clinic/policy';
import { discardDraft } from '@/db/patients/drafts';
import { recordOf } from '@/db/patients/records';
import { saveVisit, visitOfSubmission } from '@/db/patients/visits';
import type { Therapist } from '@/db/therapist';
import { completeBegun } from '@/db/worklist/prompt-answers';
import { refreshPatient } from '@/db/worklist/refresh-work';
import { keysOf, NOTHING_ASKED, type ServerAsks } from '@/lib/entry/asked-by-server';
import { leftOpenInWords, unasked } from '@/lib/entry/open-questions';
import { signedForm } from '@/lib/entry/signed-form';
import { knownOwnMeasures } from '@/lib/parts/own-measure';
import { DONE_BY_MEASURING } from '@/lib/prompts/prompt';
import type { FormRefusal } from '@/lib/visit-form/read-sheet-side';
import { readVisitForm } from '@/lib/visit-form/read-visit-form';
import { visitFormSchema } from '@/lib/visit-form/visit-form-schema';
import { whatIsKnown } from './read-sheet-data';

/** Why a visit was not saved: boxes to be looked at, or questions that the sheet has not asked. */
export type NotSaved = { readonly kind: 'refused'; readonly refusals: readonly FormRefusal[] } | ServerAsks;

/**
 * Saves a whole visit; or says which boxes stop it, and nothing is saved by half. Sent twice, it makes one visit.
 *
 * The sheet's questions are asked again here. One that was neither kept, nor set right, nor shown and left open comes back.
 */
export async function saveNewVisit(
  therapist: Therapist,
  patientId: string,
  submissionId: string,
  typed: unknown,
  leftOpen: unknown,
): Promise<NotSaved | { readonly kind: 'saved'; readonly visitId: string }> {
  const form = visitFormSchema.safeParse(typed);
  if (!form.success || !/^[0-9a-f-]{36}$/.test(submissionId))
    return { kind: 'refused', refusals: [{ where: 'form', reason: 'This sheet has lost its shape. Reload the page; the draft is kept.' }] };
  const today = todayIn((await clinicOf(therapist)).timeZone);
  const record = await recordOf(therapist, patientId);
  if (!record) return notYours();
  const signed = signedForm(form.data, therapist.name, new Date());
  const ownMeasures = knownOwnMeasures((await ownPartsOf(therapist)).measures, record.visits);
  const read = readVisitForm(signed, { born: record.born, today, phases: record.phases, ownMeasures });
  if (read.kind === 'refused') return read;
  const known = whatIsKnown(record, await policyOf(therapist), read.visit.day, today);
  const sentBefore = await visitOfSubmission(therapist, submissionId);
  const asks = sentBefore ? NOTHING_ASKED : unasked(signed, known, keysOf(leftOpen));
  if (asks.asks.length + asks.ofVisit.length > 0) return { kind: 'asked', known, ...asks };
  const open = leftOpenInWords(signed, known);
  const saved = await saveVisit(therapist, { patientId, submissionId, visit: read.visit, leftOpen: open });
  if (saved.kind === 'not-found') return notYours();
  if (saved.kind === 'another-patient') return SENT_ELSEWHERE;
  if (saved.kind === 'after-end') return { kind: 'refused', refusals: [{ where: 'day', reason: saved.words }] };
  await completeBegun(therapist, patientId, DONE_BY_MEASURING);
  await discardDraft(therapist, patientId, 'visit');
  await refreshPatient(therapist, patientId, today);
  return { kind: 'saved', visitId: saved.visitId };
}

const SENT_ELSEWHERE: NotSaved = {
  kind: 'refused',
  refusals: [
    { where: 'form', reason: 'This sheet was sent before, for another patient. Nothing was saved; the draft is kept. Reload the page.' },
  ],
};

function notYours(): NotSaved {
  return { kind: 'refused', refusals: [{ where: 'form', reason: 'This patient is not in your clinic. Nothing was saved.' }] };
}
