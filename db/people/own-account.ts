import { eq } from 'drizzle-orm';
import { auditEntry } from '../audit/audit-entry';
import { getDatabase } from '../client';
import { account, user } from '../schema/schema';
import type { Therapist } from '../therapist';
import { inTransaction } from '../transaction';
import { endAllBut } from './sessions';

/** This person's e-mail and the hash of their password. */
export async function ownProof(therapist: Therapist): Promise<{ readonly email: string; readonly passwordHash: string }> {
  const database = await getDatabase();
  const [found] = await database
    .select({ email: user.email, passwordHash: account.password })
    .from(user)
    .innerJoin(account, eq(account.userId, user.id))
    .where(eq(user.id, therapist.id));
  return { email: found?.email ?? '', passwordHash: found?.passwordHash ?? '' };
}

/** Changes this person's own password; every other session of theirs ends, the one that asks goes on. */
export async function changePassword(
  therapist: Therapist,
  chosen: { readonly passwordHash: string; readonly needsSecondFactor: boolean },
  ownSessionId: string,
  at = new Date(),
): Promise<void> {
  const { passwordHash: password, needsSecondFactor } = chosen;
  await inTransaction([
    (tx) =>
      tx
        .update(account)
        .set({ password, needsSecondFactor, updatedAt: at })
        .where(eq(account.userId, therapist.id))
        .returning({ id: account.id }),
    ...endAllBut(therapist, ownSessionId, at),
    auditEntry(therapist, { action: 'password changed', subjectKind: 'person', subjectId: therapist.id }, at),
  ]);
}
