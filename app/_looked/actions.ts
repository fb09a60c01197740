'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { loadPatient } from '@/app/_record/load-patient';
import { ownKindsOf } from '@/db/clinic/observed-kinds';
import { isSubmitted, saveNoted } from '@/db/patients/noted';
import { refreshPatient } from '@/db/worklist/refresh-work';
import { readObservation } from '@/lib/forms/read-observation';
import { LONGEST_REASON, reasonErrors } from '@/lib/forms/read-reason';
import { kindsOf } from '@/lib/observations/catalogue';
import { observationFaults } from '@/lib/observations/observation-faults';
import { OBSERVATION } from '@/lib/observations/observation-schema';
import { readDay } from '@/lib/units/calendar-day';

/** What stops a form of something looked at, beside its boxes, and everything as it was typed. */
export type LookedFormState = {
  readonly errors: Readonly<Record<string, string>>;
  readonly typed: Readonly<Record<string, string>> | null;
};

const STALE = 'This has changed since the page was opened. Nothing was saved; what you typed stands here.';

/** Adds something that was looked at, or corrects it with a reason: the state before stays. */
export async function saveLookedAction(_before: LookedFormState, form: FormData): Promise<LookedFormState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = postedText(form);
  const { patientId = '', submissionId = '', observationId = '', number = '' } = typed;
  const kept = `/patients/${patientId}/looked`;
  if (await isSubmitted(therapist, submissionId)) redirect(kept);
  const { record, today } = await loadPatient(therapist, patientId);
  const kind = kindsOf(await ownKindsOf(therapist)).find(({ id }) => id === typed.kind);
  const standing = record.observations.find((one) => one.observationId === observationId);
  if (!kind || (observationId && (!standing || standing.kind !== kind.id || String(standing.number) !== number)))
    return { errors: { form: STALE }, typed };
  const { rater, gone } = standing ?? { rater: therapist.name, gone: null };
  const read = readObservation(kind, typed, { born: record.born, today, rater, gone });
  const reason = (typed.reason ?? '').trim();
  const unsaid = reasonErrors(reason, standing !== undefined, LONGEST_REASON.other);
  if (read.kind === 'refused') return { errors: { ...read.errors, ...unsaid }, typed };
  if (Object.keys(unsaid).length > 0) return { errors: unsaid, typed };
  const id = submissionId || crypto.randomUUID();
  const content = read.observation;
  const saved = await saveNoted(therapist, patientId, {
    submissionId: id,
    ...{ kind: 'observation', thing: standing?.observationId ?? id, expected: standing?.number ?? 0, day: content.day, content },
    ...{ deed: standing ? 'observation corrected' : 'observation added', reason: reason || null },
  });
  if (saved.kind === 'conflict' || saved.kind === 'not-found') return { errors: { form: STALE }, typed };
  await refreshPatient(therapist, patientId, today);
  redirect(kept);
}

/** Says that a mark is gone on a day, or takes an observation back with a reason. */
export async function endLookedAction(_before: LookedFormState, form: FormData): Promise<LookedFormState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = postedText(form);
  const { patientId = '', submissionId = '', observationId = '', number = '', intent = '' } = typed;
  const kept = `/patients/${patientId}/looked`;
  if (await isSubmitted(therapist, submissionId)) redirect(kept);
  const { record, today } = await loadPatient(therapist, patientId);
  const standing = record.observations.find((one) => one.observationId === observationId);
  if (!standing || String(standing.number) !== number) return { errors: { form: STALE }, typed };
  const reason = (typed.reason ?? '').trim();
  if (reason.length > LONGEST_REASON.other) return { errors: reasonErrors(reason, false, LONGEST_REASON.other), typed };
  const gone = readDay(typed.gone ?? '');
  const content = intent === 'gone' && gone.kind === 'read' ? { ...OBSERVATION.parse(standing), gone: gone.value } : null;
  if (intent === 'gone') {
    if (!content) return { errors: { gone: 'Choose the day.' }, typed };
    const fault = observationFaults(undefined, content, record.born, today).find(({ field }) => field === 'gone');
    if (fault) return { errors: { gone: fault.reason }, typed };
  } else if (reason === '') return { errors: { reason: 'Say in a few words why it is taken back.' }, typed };
  const saved = await saveNoted(therapist, patientId, {
    submissionId: submissionId || crypto.randomUUID(),
    ...{ kind: 'observation', thing: observationId, expected: standing.number, day: standing.day, content },
    ...{ deed: content ? 'observation corrected' : 'observation taken back', reason: content ? 'gone' : reason },
  });
  if (saved.kind === 'conflict' || saved.kind === 'not-found') return { errors: { form: STALE }, typed };
  await refreshPatient(therapist, patientId, today);
  redirect(kept);
}
