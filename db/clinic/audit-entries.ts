import { and, desc, eq } from 'drizzle-orm';
import { getDatabase } from '../client';
import { audit, user } from '../schema/schema';
import type { Therapist } from '../therapist';

/** The latest deeds in the clinic, newest first, with the name of who did them. */
export async function auditEntries(therapist: Therapist, most = 100, subjectId?: string) {
  const database = await getDatabase();
  const subject = subjectId ? eq(audit.subjectId, subjectId) : undefined;
  return database
    .select({
      id: audit.id,
      at: audit.at,
      who: audit.who,
      whoName: user.name,
      action: audit.action,
      subjectKind: audit.subjectKind,
      subjectId: audit.subjectId,
      detail: audit.detail,
    })
    .from(audit)
    .leftJoin(user, eq(user.id, audit.who))
    .where(and(eq(audit.clinicId, therapist.clinicId), subject))
    .orderBy(desc(audit.at), desc(audit.id))
    .limit(most);
}
