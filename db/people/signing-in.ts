import { and, eq, isNull, lt } from 'drizzle-orm';
import { auditEntry } from '../audit/audit-entry';
import { getDatabase } from '../client';
import { account, recoveryCode, secondFactor, session, user } from '../schema/schema';
import { ifItCan, whenFree } from '../sql/storage-trouble';
import { inTransaction } from '../transaction';

/** What somebody has to match who says they are this person. */
export type Proof = {
  readonly id: string;
  readonly clinicId: string;
  readonly isDisabled: boolean;
  readonly passwordHash: string | null;
  /** The secret of their second factor, sealed; null without one. */
  readonly sealedSecret: string | null;
};

/** What the person with this e-mail has to prove; undefined when there is none. For signing in, where nobody is signed in yet. */
export async function proofOf(email: string): Promise<Proof | undefined> {
  const database = await getDatabase();
  const [found] = await database
    .select({
      id: user.id,
      clinicId: user.clinicId,
      disabledAt: user.disabledAt,
      passwordHash: account.password,
      sealedSecret: secondFactor.sealedSecret,
    })
    .from(user)
    .leftJoin(account, eq(account.userId, user.id))
    .leftJoin(secondFactor, eq(secondFactor.id, user.id))
    .where(eq(user.email, email.trim().toLowerCase()));
  if (!found) return undefined;
  const { disabledAt, ...proof } = found;
  return { ...proof, isDisabled: disabledAt !== null };
}

/** Uses up the code of one half-minute; false when it, or a later one, was used before. */
export async function spendStep(userId: string, step: number): Promise<boolean> {
  const database = await getDatabase();
  const later = and(eq(secondFactor.id, userId), lt(secondFactor.lastStep, step));
  const spent = await whenFree(async () =>
    database.update(secondFactor).set({ lastStep: step }).where(later).returning({ id: secondFactor.id }),
  );
  return spent.length === 1;
}

/** Uses up a recovery code; false when this person has no such code left. */
export async function spendRecoveryCode(person: { readonly id: string; readonly clinicId: string }, codeHash: string, at = new Date()) {
  const written = await inTransaction([
    (tx) =>
      tx
        .update(recoveryCode)
        .set({ usedAt: at })
        .where(and(eq(recoveryCode.userId, person.id), eq(recoveryCode.codeHash, codeHash), isNull(recoveryCode.usedAt)))
        .returning({ id: recoveryCode.id }),
    auditEntry(person, { action: 'recovery code used', subjectKind: 'person', subjectId: person.id }, at),
  ]);
  return written.kind === 'written';
}

/** Notes that a person has signed in, and clears their sessions away whose shift is over. */
export async function noteSignedIn(userId: string, at = new Date()): Promise<void> {
  const database = await getDatabase();
  await ifItCan(async () => database.delete(session).where(and(eq(session.userId, userId), lt(session.expiresAt, at))));
  await ifItCan(async () => database.update(user).set({ lastSignedInAt: at }).where(eq(user.id, userId)));
}
