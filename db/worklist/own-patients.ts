import { and, desc, eq, gt, max } from 'drizzle-orm';
import { getDatabase } from '../client';
import { REVOKED } from '../patients/revoked';
import { visit, visitRevision } from '../schema/schema';
import type { Therapist } from '../therapist';

/**
 * The patients whose newest visit stands as this person wrote it, those seen last first: who is theirs for the work.
 *
 * Costs one pass over the clinic's visits; asked only where somebody chooses to see their own.
 */
export async function ownPatients(therapist: Therapist, most: number): Promise<readonly string[]> {
  const database = await getDatabase();
  const stands = and(eq(visit.clinicId, therapist.clinicId), gt(visit.revision, REVOKED));
  const newest = database
    .select({ patientId: visit.patientId, day: max(visit.day).as('newest_day') })
    .from(visit)
    .where(stands)
    .groupBy(visit.patientId)
    .as('newest');
  const found = await database
    .select({ patientId: visit.patientId })
    .from(visit)
    .innerJoin(newest, and(eq(newest.patientId, visit.patientId), eq(newest.day, visit.day)))
    .innerJoin(visitRevision, and(eq(visitRevision.visitId, visit.id), eq(visitRevision.number, visit.revision)))
    .where(and(stands, eq(visitRevision.author, therapist.id)))
    .orderBy(desc(visit.day), visit.patientId)
    .limit(most);
  return [...new Set(found.map(({ patientId }) => patientId))];
}
