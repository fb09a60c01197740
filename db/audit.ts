import { and, desc, eq } from 'drizzle-orm';
import type { AuditAction } from './audit-actions';
import { getDatabase } from './client';
import { audit, user } from './schema';
import type { Therapist } from './therapist';
import type { Statement } from './write-together';

/** What was done to which thing; typed words go into the detail, never into the name. */
export type Deed = {
  readonly action: AuditAction;
  readonly subjectKind: string;
  readonly subjectId: string;
  readonly detail?: Readonly<Record<string, unknown>>;
};

/** The audit row of a write; it becomes the next link of the clinic's chain. */
export function noteOf(by: { readonly id: string; readonly clinicId: string }, deed: Deed, at: Date): Statement {
  return { note: { id: crypto.randomUUID(), clinicId: by.clinicId, at, who: by.id, ...deed } };
}

/** The latest deeds in the clinic, newest first, with the name of who did them. */
export async function deedsOf(therapist: Therapist, most = 100, subjectId?: string) {
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
