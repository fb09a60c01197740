import { randomBytes } from 'node:crypto';
import { and, eq, gt, isNull } from 'drizzle-orm';
import { auditEntry } from '../audit/audit-entry';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { account, clinic, oneTimeLink, secondFactor, user } from '../schema/schema';
import { inTransaction } from '../transaction';
import { type ConfirmedFactor, keepFactor } from './second-factor';
import { hashOf } from './token-hash';

/** Days a link answers with which an invited person joins: they may be away for some days. Clinic default. */
export const INVITE_DAYS = 7;
/** Days a link to choose a new password answers: it is handed over in person. Clinic default. */
export const RESET_DAYS = 1;

/** A link just made: its token is handed out once, and only its hash is kept. */
export type MadeLink = { readonly token: string; readonly expiresAt: Date };

/** Whom a link belongs to, as they see it. */
export type LinkHolder = {
  readonly id: string;
  readonly clinicId: string;
  readonly name: string;
  readonly email: string;
  readonly clinicName: string;
  /** False for somebody who joins: they have chosen no password yet. */
  readonly hasPassword: boolean;
  readonly hasSecondFactor: boolean;
};

/** What the holder of a link chooses. */
export type Chosen = {
  readonly passwordHash: string;
  /** True when the password is too short to stand without a second factor. */
  readonly needsSecondFactor: boolean;
  readonly factor?: ConfirmedFactor;
};

/** A fresh link for one person, and the statement that puts it in the place of their earlier one. */
export function linkFor(userId: string, by: string, days: number, at: Date): { readonly link: MadeLink; readonly keep: Statement } {
  const token = randomBytes(32).toString('base64url');
  const expiresAt = new Date(at.getTime() + days * 86_400_000);
  const row = { tokenHash: hashOf(token), by, at, expiresAt, usedAt: null };
  const keep: Statement = (tx) =>
    tx
      .insert(oneTimeLink)
      .values({ id: userId, ...row })
      .onConflictDoUpdate({ target: oneTimeLink.id, set: row })
      .returning({ id: oneTimeLink.id });
  return { link: { token, expiresAt }, keep };
}

/** Whom this token belongs to; undefined for a token that opens nothing, whatever the reason. */
export async function holderOf(token: string, at = new Date()): Promise<LinkHolder | undefined> {
  const database = await getDatabase();
  const [found] = await database
    .select({
      id: user.id,
      clinicId: user.clinicId,
      name: user.name,
      email: user.email,
      clinicName: clinic.name,
      password: account.password,
      factorId: secondFactor.id,
      accessFrom: user.accessFrom,
      madeAt: oneTimeLink.at,
    })
    .from(oneTimeLink)
    .innerJoin(user, eq(user.id, oneTimeLink.id))
    .innerJoin(clinic, eq(clinic.id, user.clinicId))
    .innerJoin(account, eq(account.userId, user.id))
    .leftJoin(secondFactor, eq(secondFactor.id, user.id))
    .where(and(opensNow(token, at), isNull(user.disabledAt)));
  if (!found || (found.accessFrom && found.madeAt < found.accessFrom)) return undefined;
  const { password, factorId, accessFrom, madeAt, ...holder } = found;
  return { ...holder, hasPassword: password !== null, hasSecondFactor: factorId !== null };
}

/** Uses a link up: the password it is for is set, and every session of its person ends. False when it has just been used, or has ended. */
export async function takeLink(token: string, chosen: Chosen, at = new Date()): Promise<boolean> {
  const holder = await holderOf(token, at);
  if (!holder) return false;
  const { passwordHash: password, needsSecondFactor, factor } = chosen;
  const action = holder.hasPassword ? 'password chosen anew by a link' : 'joined by a link';
  const written = await inTransaction([
    (tx) => tx.update(oneTimeLink).set({ usedAt: at }).where(opensNow(token, at)).returning({ id: oneTimeLink.id }),
    (tx) =>
      tx
        .update(account)
        .set({ password, needsSecondFactor, updatedAt: at })
        .where(eq(account.userId, holder.id))
        .returning({ id: account.id }),
    (tx) => tx.update(user).set({ accessFrom: at, updatedAt: at }).where(eq(user.id, holder.id)).returning({ id: user.id }),
    ...(factor ? keepFactor(holder.id, factor, at) : []),
    auditEntry(holder, { action, subjectKind: 'person', subjectId: holder.id, detail: { secondFactor: factor !== undefined } }, at),
  ]);
  return written.kind === 'written';
}

function opensNow(token: string, at: Date) {
  return and(eq(oneTimeLink.tokenHash, hashOf(token)), isNull(oneTimeLink.usedAt), gt(oneTimeLink.expiresAt, at));
}
