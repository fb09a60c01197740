import { and, eq, max, or, sql } from 'drizzle-orm';
import { retainedUntil } from '@/lib/record/retained-until';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { getDatabase } from '../client';
import { policyOf } from '../clinic/policy';
import { headColumns, isCurrent } from '../patients/patients';
import { REVOKED } from '../patients/revoked';
import { garmentOrder, issuedDocument, patient, patientRevision, piece, visit } from '../schema/schema';
import type { Therapist } from '../therapist';

/** What an erasure would take, and until when the record has to be kept. */
export type PlannedErasure = {
  readonly patientId: string;
  readonly reference: string;
  readonly name: string | null;
  readonly holds: readonly string[];
  readonly lastVisit: CalendarDay | undefined;
  readonly retainedUntil: CalendarDay;
};

/** Looks at the patients of this reference: one, and any that an import brought in and that was taken back. Nothing is changed. */
export async function plannedErasures(therapist: Therapist, reference: string): Promise<readonly PlannedErasure[]> {
  const database = await getDatabase();
  const takenBack = and(eq(patientRevision.patientId, patient.id), eq(patient.revision, REVOKED), eq(patientRevision.number, 1));
  const heads = await database
    .select(headColumns)
    .from(patient)
    .innerJoin(patientRevision, or(isCurrent, takenBack))
    .where(and(eq(patient.clinicId, therapist.clinicId), eq(sql`lower(${patientRevision.reference})`, reference.toLowerCase())));
  const policy = await policyOf(therapist);
  const plans: PlannedErasure[] = [];
  for (const { patientId, name, born, ...head } of heads) {
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
    plans.push({ patientId, reference: head.reference, name, holds, lastVisit, retainedUntil: retainedUntil(born, lastVisit, policy) });
  }
  return plans;
}
