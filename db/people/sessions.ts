import { and, desc, eq, gt, gte, isNull, lt, or } from 'drizzle-orm';
import { auditEntry } from '../audit/audit-entry';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { session, user } from '../schema/schema';
import { ifItCan } from '../sql/storage-trouble';
import type { Therapist } from '../therapist';
import { inTransaction } from '../transaction';

/**
 * Seconds after signing in when a session ends whatever happens: the length of a shift. Clinic default.
 *
 * Source: NIST SP 800-63B (2017), section 4.2.3 (AAL2): sign in again at least once in 12 hours.
 */
export const SHIFT_SECONDS = 12 * 60 * 60;

/**
 * Seconds without any use after which a session ends. Clinic default.
 *
 * Source: the same section asks for at most 30 minutes; OWASP Session Management Cheat Sheet: 15 to 30 where little is at risk, 2 to 5
 * where much is. A taping with both hands busy takes longer than 5.
 */
export const IDLE_SECONDS = 15 * 60;

const MINUTE = 60_000;

/** Notes that a session is in use: written once a minute at most, after the page was sent, and not at all while nothing can be written. */
export async function touchSession(sessionId: string, at = new Date()): Promise<void> {
  const database = await getDatabase();
  const aMinuteAgo = new Date(at.getTime() - MINUTE);
  const last = and(eq(session.id, sessionId), or(isNull(session.lastUsedAt), lt(session.lastUsedAt, aMinuteAgo)));
  const noted = await ifItCan(async () => {
    await database.update(session).set({ lastUsedAt: at }).where(last);
    return true;
  });
  if (noted) usedUnnoted.delete(sessionId);
  else usedUnnoted.set(sessionId, at);
}

/** Uses that could not be written down; they count in this process, so that a full disk signs nobody out in mid-work. */
const usedUnnoted = new Map<string, Date>();

/** When a session was last used, as far as this process knows. */
export function lastUseOf(sessionId: string, written: Date): Date {
  const unnoted = usedUnnoted.get(sessionId);
  return unnoted && unnoted > written ? unnoted : written;
}

/** Ends a session that nobody has used for too long. */
export async function endIdleSession(sessionId: string): Promise<void> {
  const database = await getDatabase();
  usedUnnoted.delete(sessionId);
  await ifItCan(async () => database.delete(session).where(eq(session.id, sessionId)));
}

/** The browsers in which this person is signed in, the one used last first. */
export async function sessionsOf(therapist: Therapist, at = new Date()) {
  const database = await getDatabase();
  const { id, ipAddress, userAgent, createdAt, lastUsedAt } = session;
  const idleSince = new Date(at.getTime() - IDLE_SECONDS * 1000);
  const inUse = or(gt(lastUsedAt, idleSince), and(isNull(lastUsedAt), gt(createdAt, idleSince)));
  return database
    .select({ id, ipAddress, userAgent, createdAt, lastUsedAt })
    .from(session)
    .innerJoin(user, eq(user.id, session.userId))
    .where(and(eq(session.userId, therapist.id), gt(session.expiresAt, at), inUse, isHandedOutSince()))
    .orderBy(desc(lastUsedAt), desc(createdAt), desc(id));
}

/** Ends one of this person's own sessions; false when they have no such session. */
export async function endSession(therapist: Therapist, sessionId: string, at = new Date()): Promise<boolean> {
  const written = await inTransaction([
    (tx) =>
      tx
        .delete(session)
        .where(and(eq(session.id, sessionId), eq(session.userId, therapist.id)))
        .returning({ id: session.id }),
    auditEntry(therapist, { action: 'session ended', subjectKind: 'person', subjectId: therapist.id }, at),
  ]);
  return written.kind === 'written';
}

/** Ends every session of this person but the one that asks. */
export async function endOtherSessions(therapist: Therapist, ownSessionId: string, at = new Date()): Promise<boolean> {
  const written = await inTransaction([
    ...endAllBut(therapist, ownSessionId, at),
    auditEntry(therapist, { action: 'other sessions ended', subjectKind: 'person', subjectId: therapist.id }, at),
  ]);
  return written.kind === 'written';
}

/** The statements that end every session of a person but one: nothing from before this moment opens anything, and that one begins now. */
export function endAllBut(therapist: Therapist, sessionId: string, at: Date): readonly Statement[] {
  return [
    (tx) => tx.update(user).set({ accessFrom: at, updatedAt: at }).where(eq(user.id, therapist.id)).returning({ id: user.id }),
    (tx) =>
      tx
        .update(session)
        .set({ createdAt: at })
        .where(and(eq(session.id, sessionId), eq(session.userId, therapist.id)))
        .returning({ id: session.id }),
  ];
}

/** True of a session that began after everything from before was ended. */
function isHandedOutSince() {
  return or(isNull(user.accessFrom), gte(session.createdAt, user.accessFrom));
}
