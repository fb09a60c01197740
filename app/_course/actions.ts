'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { loadPatient } from '@/app/_record/load-patient';
import { coursesOfPatients, saveCourse } from '@/db/patients/course';
import { refreshPatient } from '@/db/worklist/refresh-work';
import { deathIn, type Phase } from '@/lib/course/phases';
import { boxesOf, faultsByBox, LONGEST_NOTE, type PhaseBox, readPhaseForm } from '@/lib/forms/read-phase-form';

/** What stops the form of a phase, beside its boxes, and everything as it was typed. */
export type PhaseFormState = {
  readonly errors: Readonly<Partial<Record<PhaseBox | 'form' | 'deathWasMistaken', string>>>;
  readonly typed: Readonly<Record<string, string>> | null;
};

const STALE =
  'The course has changed since this page was opened. Nothing was saved; what you typed stands here: open the page anew and compare.';

/**
 * Begins a phase, corrects one or takes one back, by writing the whole course anew: each earlier writing stays. A death is taken back only
 * where it is said to have been a mistake, and why.
 */
export async function savePhaseAction(_before: PhaseFormState, form: FormData): Promise<PhaseFormState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = postedText(form);
  const { patientId = '', submissionId = '', number = '', at = '', intent = '' } = typed;
  const { record, today } = await loadPatient(therapist, patientId);
  const course = (await coursesOfPatients(therapist, [patientId])).get(patientId) ?? { number: 0, phases: [] };
  if (course.number !== Number(number)) return { errors: { form: STALE }, typed };
  const corrected = at === '' ? undefined : course.phases[Number(at)];
  if (at !== '' && !corrected) return { errors: { form: STALE }, typed };
  const takesBack = corrected !== undefined && intent === 'take back';
  const read = takesBack ? undefined : readPhaseForm(typed, today);
  const reason = (typed.reason ?? '').trim().slice(0, LONGEST_NOTE);
  const unsaid = corrected && reason === '' ? { reason: 'Say in a few words why it is changed.' } : {};
  if (read?.kind === 'refused') return { errors: { ...read.errors, ...unsaid }, typed };
  const phase = read?.phase;
  const kept: readonly Phase[] = course.phases.filter((one) => one !== corrected);
  const phases = phase ? [...kept, phase] : kept;
  const errors = { ...faultsByBox(phases, phase, record.born, new Set(record.visits.map(({ day }) => day))), ...unsaid };
  if (Object.keys(errors).length > 0) return { errors, typed };
  const deathWasMistaken = typed.deathWasMistaken === 'yes';
  if (deathIn(course.phases) && !deathIn(phases) && !deathWasMistaken)
    return { errors: { deathWasMistaken: 'This takes a death back. Tick that it was noted by mistake, or leave it as it stands.' }, typed };
  const deed = takesBack ? 'phase taken back' : corrected ? 'phase corrected' : 'phase begun';
  const saved = await saveCourse(therapist, patientId, course.number, {
    submissionId: submissionId || crypto.randomUUID(),
    phases,
    deed,
    reason: reason || null,
    deathWasMistaken,
  });
  if (saved.kind === 'refused')
    return { errors: boxesOf(saved.faults, saved.faults.find((one) => one.phase.from === phase?.from)?.phase), typed };
  if (saved.kind === 'conflict' || saved.kind === 'death-undone') return { errors: { form: STALE }, typed };
  if (saved.kind === 'not-found') return { errors: { form: 'This patient is not in your clinic. Nothing was saved.' }, typed };
  await refreshPatient(therapist, patientId, today);
  redirect(`/patients/${patientId}/course`);
}
