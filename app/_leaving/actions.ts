'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { loadPatient } from '@/app/_record/load-patient';
import { leavingTextsOf } from '@/db/clinic/leaving-texts';
import { isSubmitted, saveNoted } from '@/db/patients/noted';
import { deathIn } from '@/lib/course/phases';
import { readLeaving } from '@/lib/forms/read-leaving';
import { LONGEST_REASON, reasonErrors } from '@/lib/forms/read-reason';

/** What stops the form, beside its boxes, and everything as typed. */
export type LeavingState = {
  readonly errors: Readonly<Record<string, string>>;
  readonly typed: Readonly<Record<string, string>> | null;
};

const STALE = 'Somebody else went through this since the page was opened, or the criteria changed. Nothing was saved; open the page anew.';

/** Keeps what was gone through before somebody leaves, in the words of that day; the state before stays. The course itself is ended on its page. */
export async function saveLeavingAction(_before: LeavingState, form: FormData): Promise<LeavingState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = postedText(form);
  const { patientId = '', submissionId = '', number = '', criteria = '' } = typed;
  const kept = `/patients/${patientId}/leaving`;
  if (await isSubmitted(therapist, submissionId)) redirect(kept);
  const { record, today } = await loadPatient(therapist, patientId);
  const texts = await leavingTextsOf(therapist);
  if (String(record.leavingNumber) !== number || texts.criteria.join('\n') !== criteria.replaceAll('\r\n', '\n'))
    return { errors: { form: STALE }, typed };
  if (deathIn(record.phases)) return { errors: { form: 'A death is on record. Nothing is gone through any more.' }, typed };
  const read = readLeaving(typed, texts.criteria, { born: record.born, today });
  const reason = (typed.reason ?? '').trim();
  const unsaid = reasonErrors(reason, record.leavingNumber > 0, LONGEST_REASON.other);
  if (read.kind === 'refused') return { errors: { ...read.errors, ...unsaid }, typed };
  if (Object.keys(unsaid).length > 0) return { errors: unsaid, typed };
  const saved = await saveNoted(therapist, patientId, {
    submissionId: submissionId || crypto.randomUUID(),
    ...{ kind: 'leaving', thing: patientId, expected: record.leavingNumber, day: read.leaving.day, content: read.leaving },
    ...{ deed: 'leaving gone through', reason: reason || null },
  });
  if (saved.kind === 'conflict' || saved.kind === 'not-found') return { errors: { form: STALE }, typed };
  redirect(kept);
}
