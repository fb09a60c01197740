import { addPatient } from '@/db/patients';
import { savePiece } from '@/db/pieces';
import type { Therapist } from '@/db/therapist';
import { saveVisit } from '@/db/visits';
import type { CalendarDay } from '@/lib/units/calendar-day';
import type { DemoPatient } from './demo-patient';

/** Writes one made-up person into a clinic as a therapist would have: the patient, each visit on its day, each piece from its ladder. */
export async function seedPatient(lead: Therapist, { details, visits, pieces }: DemoPatient): Promise<string> {
  const written = (day: CalendarDay | undefined) => new Date(`${day ?? '2026-01-01'}T15:00:00Z`);
  const entry = { submissionId: crypto.randomUUID(), details };
  const added = await addPatient(lead, entry, written(visits[0]?.day));
  if (added.kind !== 'saved') throw new Error(`${details.reference} is there twice.`);
  const { patientId } = added;
  const visitOf = new Map<CalendarDay, string>();
  for (const visit of visits) {
    const saved = await saveVisit(lead, { patientId, submissionId: crypto.randomUUID(), visit }, written(visit.day));
    if (saved.kind === 'saved') visitOf.set(visit.day, saved.visitId);
  }
  for (const one of pieces) {
    const piece = { ...one, cutFromVisitId: visitOf.get(one.cutFrom) ?? null };
    await savePiece(lead, { patientId, submissionId: crypto.randomUUID(), piece }, written(one.cutFrom));
  }
  return patientId;
}
