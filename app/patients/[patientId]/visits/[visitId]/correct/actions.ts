'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { timeIn, todayIn } from '@/app/_auth/today';
import { type AnswerChange, answerChanges } from '@/app/_sheet/answer-changes';
import { knownBefore } from '@/app/_sheet/read-sheet-data';
import { clinicOf } from '@/db/clinic/clinic';
import { ownPartsOf } from '@/db/clinic/own-parts';
import { policyOf } from '@/db/clinic/policy';
import { discardDraft } from '@/db/patients/drafts';
import { visitWithHistory } from '@/db/patients/read-visits';
import { recordOf } from '@/db/patients/records';
import { reviseVisit } from '@/db/patients/visits';
import { refreshPatient } from '@/db/worklist/refresh-work';
import { keysOf, type ServerAsks } from '@/lib/entry/asked-by-server';
import { type FigureDifference, figureDifferences } from '@/lib/entry/figure-differences';
import { leftOpenInWords, unasked } from '@/lib/entry/open-questions';
import { signedForm } from '@/lib/entry/signed-form';
import { knownOwnMeasures } from '@/lib/parts/own-measure';
import { formOfVisit } from '@/lib/visit-form/form-of-visit';
import type { FormRefusal } from '@/lib/visit-form/read-sheet-side';
import { readVisitForm } from '@/lib/visit-form/read-visit-form';
import { visitFormSchema } from '@/lib/visit-form/visit-form-schema';

type Refused = { readonly kind: 'refused'; readonly refusals: readonly FormRefusal[] };

/** What a correction changes: the figures that differ from those on record, and what that does to the answers. */
export type Changes = {
  readonly kind: 'answers';
  readonly figures: readonly FigureDifference[];
  readonly answers: readonly AnswerChange[];
};

/** What a correction would change, or the questions that the sheet has not asked; nothing is saved. */
export async function previewCorrection(
  patientId: string,
  visitId: string,
  typed: unknown,
  leftOpen: unknown,
): Promise<Refused | ServerAsks | Changes> {
  const therapist = await requireActing('lead', 'therapist');
  const record = await recordOf(therapist, patientId);
  const onRecord = record?.visits.find((visit) => visit.visitId === visitId);
  if (!record || !onRecord) return refusedForm('This visit is not in your clinic. Nothing was saved.');
  const { timeZone, ...units } = await clinicOf(therapist);
  const today = todayIn(timeZone);
  const form = visitFormSchema.safeParse(typed);
  if (!form.success) return refusedForm('This sheet has lost its shape. Reload the page; the draft is kept.');
  const ownMeasures = knownOwnMeasures((await ownPartsOf(therapist)).measures, record.visits);
  const read = readVisitForm(form.data, { born: record.born, today, phases: record.phases, ownMeasures });
  if (read.kind === 'refused') return read;
  const policy = await policyOf(therapist);
  const known = knownBefore(record, visitId, policy, today);
  const asked = unasked(form.data, known, keysOf(leftOpen));
  if (asked.asks.length + asked.ofVisit.length > 0) return { kind: 'asked', known, ...asked };
  const figures = figureDifferences(formOfVisit(onRecord, units), form.data);
  return { kind: 'answers', figures, answers: answerChanges(record, visitId, read.visit, policy, today) };
}

/** Somebody else's version of a visit, saved while this one was being corrected, and where the two differ. */
export type TheirVersion = {
  readonly differences: readonly FigureDifference[];
  readonly revision: number;
  readonly by: string;
  readonly at: string;
};

/** What is sent to be saved as the next revision of a visit. */
export type Correction = {
  readonly expectedRevision: number;
  readonly submissionId: string;
  readonly form: unknown;
  readonly reason: string;
  readonly leftOpen: unknown;
};

/** Saves a correction as a new revision with its reason and goes to the visit; a newer version by somebody else is shown instead. */
export async function saveCorrection(
  patientId: string,
  visitId: string,
  sent: Correction,
): Promise<Refused | ServerAsks | { readonly kind: 'conflict'; readonly theirs: TheirVersion }> {
  const therapist = await requireActing('lead', 'therapist');
  const { timeZone, ...units } = await clinicOf(therapist);
  const [history, record] = [await visitWithHistory(therapist, visitId), await recordOf(therapist, patientId)];
  const form = visitFormSchema.safeParse(sent.form);
  const reason = String(sent.reason).trim().slice(0, 500);
  if (!record || !history || history.current.patientId !== patientId)
    return refusedForm('This visit is not in your clinic. Nothing was saved.');
  if (!form.success || !/^[0-9a-f-]{36}$/.test(sent.submissionId))
    return refusedForm('This sheet has lost its shape. Reload the page; the draft is kept.');
  if (reason === '')
    return { kind: 'refused', refusals: [{ where: 'reason', reason: 'Type why the visit is corrected. The reason stays with it.' }] };
  const onRecord = formOfVisit(history.current, units);
  const signed = signedForm(form.data, therapist.name, new Date(), onRecord);
  const ownMeasures = knownOwnMeasures((await ownPartsOf(therapist)).measures, record.visits);
  const read = readVisitForm(signed, { born: record.born, today: todayIn(timeZone), phases: record.phases, ownMeasures });
  if (read.kind === 'refused') return read;
  const known = knownBefore(record, visitId, await policyOf(therapist), todayIn(timeZone));
  const asked = unasked(signed, known, keysOf(sent.leftOpen));
  if (asked.asks.length + asked.ofVisit.length > 0) return { kind: 'asked', known, ...asked };
  const entry = { submissionId: sent.submissionId, visit: read.visit, reason, leftOpen: leftOpenInWords(signed, known) };
  const saved = await reviseVisit(therapist, visitId, Number(sent.expectedRevision), entry);
  if (saved.kind === 'not-found') return refusedForm('This visit is not in your clinic. Nothing was saved.');
  if (saved.kind === 'another-patient')
    return refusedForm('This sheet was sent before, for another visit. Nothing was saved. Reload the page.');
  if (saved.kind === 'after-end') return { kind: 'refused', refusals: [{ where: 'day', reason: saved.words }] };
  if (saved.kind === 'conflict') {
    const { theirs } = saved;
    return {
      kind: 'conflict',
      theirs: {
        differences: figureDifferences(formOfVisit(theirs, units), form.data),
        revision: theirs.revision,
        by: theirs.authorName ?? 'somebody',
        at: timeIn(timeZone, theirs.at),
      },
    };
  }
  await discardDraft(therapist, patientId, `correction:${visitId}`);
  await refreshPatient(therapist, patientId, todayIn(timeZone));
  redirect(`/patients/${patientId}/visits/${visitId}`);
}

function refusedForm(reason: string): Refused {
  return { kind: 'refused', refusals: [{ where: 'form', reason }] };
}
