import { and, eq, max } from 'drizzle-orm';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { getDatabase } from './client';
import { keepUntil } from './keep-until';
import { headColumns, isCurrent } from './patients';
import { garmentOrder, issuedDocument, patient, patientRevision, piece, visit } from './schema';
import type { Therapist } from './therapist';

/** What an erasure would take, and until when the record has to be kept. */
export type PlannedErasure = {
  readonly patientId: string;
  readonly reference: string;
  readonly name: string | null;
  readonly holds: readonly string[];
  readonly lastVisit: CalendarDay | undefined;
  readonly keepUntil: CalendarDay;
};

/** Looks at the patient with this reference; undefined when the clinic has none. Nothing is changed. */
export async function plannedErasure(therapist: Therapist, reference: string): Promise<PlannedErasure | undefined> {
  const database = await getDatabase();
  const [head] = await database
    .select(headColumns)
    .from(patient)
    .innerJoin(patientRevision, isCurrent)
    .where(and(eq(patient.clinicId, therapist.clinicId), eq(patient.referenceKey, reference.toLowerCase())));
  if (!head) return undefined;
  const { patientId, name, born } = head;
  const [last] = await database
    .select({ day: max(visit.day) })
    .from(visit)
    .where(eq(visit.patientId, patientId));
  const lastVisit = (last?.day ?? undefined) as CalendarDay | undefined;
  const holds = [
    `${await database.$count(visit, eq(visit.patientId, patientId))} visits`,
    `${await database.$count(piece, eq(piece.patientId, patientId))} pieces`,
    `${await database.$count(garmentOrder, eq(garmentOrder.patientId, patientId))} orders`,
    `${await database.$count(issuedDocument, eq(issuedDocument.patientId, patientId))} family pages and letters`,
  ];
  return { patientId, reference: head.reference, name, holds, lastVisit, keepUntil: keepUntil(born, lastVisit) };
}
