'use server';

import { redirect } from 'next/navigation';
import { requireRole } from '@/app/_session/therapist';
import { todayIn } from '@/app/_session/today';
import { signedForm } from '@/app/_sheet/signed-form';
import { clinicOf } from '@/db/clinic';
import { discardDraft } from '@/db/drafts';
import { saveVisit } from '@/db/visits';
import type { FormRefusal } from '@/lib/record/read-sheet-side';
import { readVisitForm } from '@/lib/record/read-visit-form';
import { visitFormSchema } from '@/lib/record/visit-form-schema';

/** Why a visit was not saved: boxes to be looked at. */
export type NotSaved = { readonly refusals: readonly FormRefusal[] };

/** Saves a whole visit and goes to its result; or says which boxes stop it, and nothing is saved by half. Sent twice, it makes one visit. */
export async function finishVisit(patientId: string, submissionId: string, typed: unknown): Promise<NotSaved> {
  const therapist = await requireRole('lead', 'therapist');
  const form = visitFormSchema.safeParse(typed);
  if (!form.success || !/^[0-9a-f-]{36}$/.test(submissionId))
    return { refusals: [{ where: 'form', reason: 'This sheet has lost its shape. Reload the page; the draft is kept.' }] };
  const read = readVisitForm(signedForm(form.data, therapist.name), todayIn((await clinicOf(therapist)).timeZone));
  if ('refusals' in read) return read;
  const saved = await saveVisit(therapist, { patientId, submissionId, visit: read.visit });
  if (saved.kind === 'not-found')
    return { refusals: [{ where: 'form', reason: 'This patient is not in your clinic. Nothing was saved.' }] };
  await discardDraft(therapist, patientId, 'visit');
  redirect(`/patients/${patientId}/visits/${saved.visitId}`);
}
