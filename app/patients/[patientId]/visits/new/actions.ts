'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { type NotSaved, saveNewVisit } from '@/app/_sheet/save-new-visit';

/** Saves a whole visit and goes to its result, or says what stops it (`saveNewVisit`). */
export async function finishVisit(patientId: string, submissionId: string, typed: unknown, leftOpen: unknown): Promise<NotSaved> {
  const therapist = await requireActing('lead', 'therapist');
  const saved = await saveNewVisit(therapist, patientId, submissionId, typed, leftOpen);
  if (saved.kind !== 'saved') return saved;
  redirect(`/patients/${patientId}/visits/${saved.visitId}`);
}
