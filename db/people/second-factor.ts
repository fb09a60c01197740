import { and, eq, isNull, or } from 'drizzle-orm';
import { auditEntry } from '../audit/audit-entry';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { account, recoveryCode, secondFactor } from '../schema/schema';
import type { Therapist } from '../therapist';
import { inTransaction } from '../transaction';

/** A second factor that its person has confirmed by a code: the secret sealed, the half-minute of that code, hashes of the recovery codes. */
export type ConfirmedFactor = {
  readonly sealedSecret: string;
  readonly lastStep: number;
  readonly recoveryCodeHashes: readonly string[];
};

/** Whether this person has a second factor, since when, and how many recovery codes they have left. */
export async function factorOf(therapist: Therapist): Promise<{ readonly since: Date; readonly codesLeft: number } | undefined> {
  const database = await getDatabase();
  const [found] = await database.select({ since: secondFactor.at }).from(secondFactor).where(eq(secondFactor.id, therapist.id));
  if (!found) return undefined;
  const codesLeft = await database.$count(recoveryCode, and(eq(recoveryCode.userId, therapist.id), isNull(recoveryCode.usedAt)));
  return { since: found.since, codesLeft };
}

/** Turns this person's second factor on. */
export async function turnFactorOn(therapist: Therapist, factor: ConfirmedFactor, at = new Date()): Promise<void> {
  await inTransaction([
    ...keepFactor(therapist.id, factor, at),
    auditEntry(therapist, { action: 'second factor turned on', subjectKind: 'person', subjectId: therapist.id }, at),
  ]);
}

/** Turns this person's second factor off; false when there is none, or when their password is too short to stand alone. */
export async function turnFactorOff(therapist: Therapist, at = new Date()): Promise<boolean> {
  const standsAlone: Statement = (tx) =>
    tx
      .update(account)
      .set({ needsSecondFactor: false })
      .where(and(eq(account.userId, therapist.id), or(isNull(account.needsSecondFactor), eq(account.needsSecondFactor, false))))
      .returning({ id: account.id });
  const written = await inTransaction([
    standsAlone,
    ...dropFactor(therapist.id),
    auditEntry(therapist, { action: 'second factor turned off', subjectKind: 'person', subjectId: therapist.id }, at),
  ]);
  return written.kind === 'written';
}

/** Puts new recovery codes in the place of all earlier ones; false without a second factor. */
export async function renewRecoveryCodes(therapist: Therapist, codeHashes: readonly string[], at = new Date()): Promise<boolean> {
  const written = await inTransaction([
    (tx) => tx.delete(recoveryCode).where(eq(recoveryCode.userId, therapist.id)).returning({ id: recoveryCode.id }),
    keepCodes(therapist.id, codeHashes),
    auditEntry(therapist, { action: 'recovery codes made anew', subjectKind: 'person', subjectId: therapist.id }, at),
  ]);
  return written.kind === 'written';
}

/** The statements that keep a second factor; they fail for somebody who has one. */
export function keepFactor(userId: string, factor: ConfirmedFactor, at: Date): readonly Statement[] {
  const row = { id: userId, sealedSecret: factor.sealedSecret, lastStep: factor.lastStep, at };
  return [
    (tx) => tx.insert(secondFactor).values(row).onConflictDoNothing().returning({ id: secondFactor.id }),
    keepCodes(userId, factor.recoveryCodeHashes),
  ];
}

/** The statements that take a second factor and its recovery codes away; they touch nothing when there is none. */
export function dropFactor(userId: string): readonly Statement[] {
  return [
    (tx) => tx.delete(recoveryCode).where(eq(recoveryCode.userId, userId)).returning({ id: recoveryCode.id }),
    (tx) => tx.delete(secondFactor).where(eq(secondFactor.id, userId)).returning({ id: secondFactor.id }),
  ];
}

function keepCodes(userId: string, codeHashes: readonly string[]): Statement {
  const rows = codeHashes.map((codeHash) => ({ id: crypto.randomUUID(), userId, codeHash }));
  return (tx) => tx.insert(recoveryCode).values(rows).returning({ id: recoveryCode.id });
}
