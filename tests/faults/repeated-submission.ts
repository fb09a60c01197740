import { count, eq } from 'drizzle-orm';
import type { MadeUpClinic } from '@/tests/db/made-up-clinic';
import { details, visitOn } from '@/tests/db/made-up-records';

/** How many visits, revisions, ladders and deeds one form left that was sent so many times. */
export type Repeated = {
  readonly sent: number;
  readonly visits: number;
  readonly revisions: number;
  readonly ladders: number;
  readonly deeds: number;
};

/** Sends one form again and again, fifty at a time. */
export async function sendAgain(at: MadeUpClinic, times: number): Promise<Repeated> {
  const added = await at.db.patients.addPatient(at.therapist, { submissionId: crypto.randomUUID(), details: details('HL-0001') });
  const patientId = 'patientId' in added ? added.patientId : '';
  const entry = { patientId, submissionId: crypto.randomUUID(), visit: visitOn('2026-10-14') };
  for (let sent = 0; sent < times; sent += 50) {
    await Promise.all(Array.from({ length: Math.min(50, times - sent) }, () => at.db.visits.saveVisit(at.therapist, entry)));
  }
  const database = await at.db.client.getDatabase();
  const { audit, ladder, visit, visitRevision } = at.db.schema;
  const [deeds] = await database.select({ rows: count() }).from(audit).where(eq(audit.action, 'visit saved'));
  return {
    sent: times,
    visits: await database.$count(visit),
    revisions: await database.$count(visitRevision),
    ladders: await database.$count(ladder),
    deeds: deeds?.rows ?? 0,
  };
}
