import { randomBytes } from 'node:crypto';
import { and, asc, desc, eq, gt, isNull, ne, or } from 'drizzle-orm';
import type { StoredDay } from '@/lib/schedule/calendar-entries';
import type { DateKind } from '@/lib/schedule/scheduled-date';
import { auditEntry } from '../audit/audit-entry';
import { getDatabase } from '../client';
import { hasDied, isNotDead } from '../patients/course';
import { patientHead } from '../patients/patients';
import { hashOf } from '../people/token-hash';
import { calendarFeed, clinic, dueDate, patient, patientRevision, user } from '../schema/schema';
import { ifItCan } from '../sql/storage-trouble';
import { assertMayWrite, type Therapist } from '../therapist';
import { inTransaction } from '../transaction';
import { alarmDaysOf } from './calendar-alarm';

/** A calendar address: whose dates, who opened it, whether it still answers. The token itself is never kept. */
export type KeptFeed = {
  readonly feedId: string;
  readonly patientId: string | null;
  readonly byName: string | null;
  readonly at: Date;
  readonly withdrawnAt: Date | null;
  readonly lastReadAt: Date | null;
};

/** Dates of one patient or, with null, of the whole clinic, that are open or changed since a moment; by day. */
export async function datesForCalendar(therapist: Therapist, patientId: string | null, changedSince: Date): Promise<readonly StoredDay[]> {
  return storedDays(therapist.clinicId, patientId, changedSince);
}

/** Opens a calendar address; its token is handed out once. Undefined when the clinic has no such patient, or the patient has died. */
export async function openFeed(therapist: Therapist, patientId: string | null, at = new Date()): Promise<string | undefined> {
  assertMayWrite(therapist);
  if (patientId !== null && (!(await patientHead(therapist, patientId)) || (await hasDied(therapist, patientId)))) return undefined;
  const token = randomBytes(32).toString('base64url');
  const row = { id: crypto.randomUUID(), clinicId: therapist.clinicId, patientId, tokenHash: hashOf(token), by: therapist.id, at };
  await inTransaction([
    (tx) => tx.insert(calendarFeed).values(row).returning({ id: calendarFeed.id }),
    auditEntry(therapist, { action: 'calendar address opened', subjectKind: 'calendar', subjectId: row.id, detail: { patientId } }, at),
  ]);
  return token;
}

/** Withdraws a calendar address at once; false when there is none to withdraw. */
export async function withdrawFeed(therapist: Therapist, feedId: string, at = new Date()): Promise<boolean> {
  assertMayWrite(therapist);
  const written = await inTransaction([
    (tx) =>
      tx
        .update(calendarFeed)
        .set({ withdrawnAt: at, withdrawnBy: therapist.id })
        .where(and(eq(calendarFeed.id, feedId), eq(calendarFeed.clinicId, therapist.clinicId), isNull(calendarFeed.withdrawnAt)))
        .returning({ id: calendarFeed.id }),
    auditEntry(therapist, { action: 'calendar address withdrawn', subjectKind: 'calendar', subjectId: feedId }, at),
  ]);
  return written.kind === 'written';
}

/** Every calendar address of the clinic, the newest first. */
export async function feedsOf(therapist: Therapist): Promise<readonly KeptFeed[]> {
  const database = await getDatabase();
  const { id, patientId, at, withdrawnAt, lastReadAt } = calendarFeed;
  return database
    .select({ feedId: id, patientId, byName: user.name, at, withdrawnAt, lastReadAt })
    .from(calendarFeed)
    .leftJoin(user, eq(user.id, calendarFeed.by))
    .where(eq(calendarFeed.clinicId, therapist.clinicId))
    .orderBy(desc(at), desc(id));
}

/** What the holder of a token may read: the dates of its feed, the zone their days are counted in, and when the clinic wants to be reminded; undefined for any other token. */
export async function calendarOfToken(
  token: string,
  changedSince: Date,
  at = new Date(),
): Promise<{ readonly timeZone: string; readonly alarmDays: number | null; readonly dates: readonly StoredDay[] } | undefined> {
  const database = await getDatabase();
  const [feed] = await database
    .select({ id: calendarFeed.id, clinicId: calendarFeed.clinicId, patientId: calendarFeed.patientId, timeZone: clinic.timeZone })
    .from(calendarFeed)
    .innerJoin(clinic, eq(clinic.id, calendarFeed.clinicId))
    .where(and(eq(calendarFeed.tokenHash, hashOf(token)), isNull(calendarFeed.withdrawnAt)));
  if (!feed) return undefined;
  await ifItCan(async () => database.update(calendarFeed).set({ lastReadAt: at }).where(eq(calendarFeed.id, feed.id)));
  const [alarmDays, dates] = [await alarmDaysOf(feed), await storedDays(feed.clinicId, feed.patientId, changedSince)];
  return { timeZone: feed.timeZone, alarmDays, dates };
}

async function storedDays(clinicId: string, patientId: string | null, changedSince: Date): Promise<StoredDay[]> {
  const database = await getDatabase();
  const { id, kind, day, time, state, sequence, changedAt } = dueDate;
  const rows = await database
    .select({ id, patientId: dueDate.patientId, reference: patientRevision.reference, kind, day, time, state, sequence, changedAt })
    .from(dueDate)
    .innerJoin(patient, eq(patient.id, dueDate.patientId))
    .innerJoin(patientRevision, and(eq(patientRevision.patientId, patient.id), eq(patientRevision.number, patient.revision)))
    .where(
      and(
        eq(dueDate.clinicId, clinicId),
        patientId === null ? undefined : eq(dueDate.patientId, patientId),
        or(and(eq(state, 'open'), isNotDead(dueDate.patientId)), and(ne(state, 'open'), gt(changedAt, changedSince))),
      ),
    )
    .orderBy(asc(day), asc(id));
  return rows.map((row) => ({ ...row, kind: row.kind as DateKind }));
}
