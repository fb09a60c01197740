import { and, asc, desc, eq, inArray } from 'drizzle-orm';
import type { Leaving } from '@/lib/course/leaving';
import { LEAVING } from '@/lib/course/leaving-schema';
import { inOrderOfBooking, type KeptBooking } from '@/lib/diary/booking';
import { BOOKING } from '@/lib/diary/booking-schema';
import { inOrderOfReply, type KeptReply } from '@/lib/observations/family-reply';
import { FAMILY_REPLY } from '@/lib/observations/family-reply-schema';
import type { KeptObservation } from '@/lib/observations/observation';
import { OBSERVATION } from '@/lib/observations/observation-schema';
import type { WorkFacts } from '@/lib/record/work-facts';
import { WORK_FACTS } from '@/lib/record/work-facts-schema';
import type { CalendarDay } from '@/lib/units/calendar-day';
import type { AuditAction } from '../audit/audit-actions';
import { auditEntry } from '../audit/audit-entry';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { notedRevision, user } from '../schema/schema';
import type { NotedKind } from '../schema/schema-noted';
import { assertMayWrite, type Therapist } from '../therapist';
import { inTransaction } from '../transaction';
import { invalidateWork } from './invalidate-work';
import { patientHead } from './patients';

/** What is noted of one patient, as it stands, and the number of the writing of the facts (0: none yet). */
export type Noted = {
  readonly facts: WorkFacts | null;
  readonly factsNumber: number;
  readonly leaving: Leaving | null;
  readonly leavingNumber: number;
  readonly bookings: readonly (KeptBooking & { readonly number: number })[];
  readonly observations: readonly (KeptObservation & { readonly number: number })[];
  readonly replies: readonly (KeptReply & { readonly number: number })[];
};

/** One writing of a noted thing: what it held (null: taken back), by whom, when and why. */
export type NotedState = {
  readonly thing: string;
  readonly number: number;
  readonly content: unknown;
  readonly authorName: string | null;
  readonly at: Date;
  readonly reason: string | null;
};

/** How the writing of a noted thing ended. `conflict`: somebody else wrote it in between. */
export type NotedSaved = { readonly kind: 'saved' | 'already-saved' | 'not-found' | 'conflict' };

/** What a person writes: the thing, the number that the form stood on, what it shall hold, the deed, why. */
export type NotedEntry = {
  readonly submissionId: string;
  readonly kind: NotedKind;
  readonly thing: string;
  readonly expected: number;
  readonly day: CalendarDay | null;
  readonly content: unknown;
  readonly deed: AuditAction;
  readonly reason: string | null;
};

export const NOTHING_NOTED: Noted = {
  ...{ facts: null, factsNumber: 0, leaving: null, leavingNumber: 0 },
  ...{ bookings: [], observations: [], replies: [] },
};

/** What is noted of each of these patients as it stands. One query. */
export async function notedOfPatients(therapist: Therapist, patientIds: readonly string[]): Promise<ReadonlyMap<string, Noted>> {
  if (patientIds.length === 0) return new Map();
  const database = await getDatabase();
  const { patientId, kind, thing, number, content, at, id } = notedRevision;
  const rows = await database
    .select({ patientId, kind, thing, number, content })
    .from(notedRevision)
    .where(and(eq(notedRevision.clinicId, therapist.clinicId), inArray(patientId, [...patientIds])))
    .orderBy(asc(number), asc(at), asc(id));
  // A thing keeps the place of its first writing: replies of one minute stand as they came.
  const latest = new Map(rows.map((row) => [`${row.kind} ${row.thing}`, row]));
  const found = new Map<string, Noted>();
  for (const row of latest.values()) {
    if (row.content === null) continue;
    found.set(row.patientId, withRow(found.get(row.patientId) ?? NOTHING_NOTED, row));
  }
  return new Map([...found].map(([id, noted]) => [id, inOrder(noted)]));
}

type Row = { readonly kind: NotedKind; readonly thing: string; readonly number: number; readonly content: unknown };

function withRow(noted: Noted, { kind, thing, number, content }: Row): Noted {
  if (kind === 'facts') return { ...noted, facts: WORK_FACTS.parse(content), factsNumber: number };
  if (kind === 'leaving') return { ...noted, leaving: LEAVING.parse(content), leavingNumber: number };
  if (kind === 'booking') return { ...noted, bookings: [...noted.bookings, { ...BOOKING.parse(content), bookingId: thing, number }] };
  if (kind === 'reply') return { ...noted, replies: [...noted.replies, { ...FAMILY_REPLY.parse(content), replyId: thing, number }] };
  return { ...noted, observations: [...noted.observations, { ...OBSERVATION.parse(content), observationId: thing, number }] };
}

function inOrder(noted: Noted): Noted {
  const observations = [...noted.observations].sort(
    (one, other) => one.day.localeCompare(other.day) || one.observationId.localeCompare(other.observationId),
  );
  return { ...noted, bookings: inOrderOfBooking(noted.bookings), observations, replies: inOrderOfReply(noted.replies) };
}

/** Every writing of one kind of thing of a patient, the newest first. */
export async function notedHistory(therapist: Therapist, ofPatient: string, ofKind: NotedKind): Promise<readonly NotedState[]> {
  const database = await getDatabase();
  const { patientId, kind, thing, number, content, at, reason, id } = notedRevision;
  return database
    .select({ thing, number, content, at, reason, authorName: user.name })
    .from(notedRevision)
    .leftJoin(user, eq(user.id, notedRevision.author))
    .where(and(eq(notedRevision.clinicId, therapist.clinicId), eq(patientId, ofPatient), eq(kind, ofKind)))
    .orderBy(desc(at), desc(number), desc(id));
}

/**
 * Writes a noted thing as it shall stand, by a row of its own: the earlier ones stay. Of two who write on the same state the second is told.
 *
 * A thing of another patient or clinic cannot be written on: its number and its owner are looked at first.
 */
export async function saveNoted(therapist: Therapist, patientId: string, entry: NotedEntry, at = new Date()): Promise<NotedSaved> {
  assertMayWrite(therapist);
  if (!(await patientHead(therapist, patientId))) return { kind: 'not-found' };
  if (await isSubmitted(therapist, entry.submissionId)) return { kind: 'already-saved' };
  const last = await lastOf(entry.kind, entry.thing);
  if (last && (last.clinicId !== therapist.clinicId || last.patientId !== patientId)) return { kind: 'not-found' };
  if ((last?.number ?? 0) !== entry.expected) return { kind: 'conflict' };
  const written = await inTransaction([...notedSteps(therapist, patientId, entry, at), invalidateWork(therapist, patientId)]);
  if (written.kind === 'written') return { kind: 'saved' };
  return { kind: (await isSubmitted(therapist, entry.submissionId)) ? 'already-saved' : 'conflict' };
}

/** Who writes a state: a person signed in, or the link by which a family sent it. */
export type Writer = { readonly id: string; readonly clinicId: string };

/** The steps that write one state: its row, its note in the history. */
export function notedSteps(writer: Writer, patientId: string, entry: NotedEntry, at: Date): readonly Statement[] {
  const { kind, thing, expected, day, content, deed, reason, submissionId } = entry;
  const signature = { author: writer.id, at, reason, submissionId };
  const row = {
    id: crypto.randomUUID(),
    clinicId: writer.clinicId,
    patientId,
    kind,
    thing,
    number: expected + 1,
    day,
    content,
    ...signature,
  };
  return [
    (tx) => tx.insert(notedRevision).values(row).onConflictDoNothing().returning({ id: notedRevision.id }),
    auditEntry(writer, { action: deed, subjectKind: 'patient', subjectId: patientId, detail: { number: row.number, day, reason } }, at),
  ];
}

/** The steps that give a new patient what is noted in a file. `origin` makes each written once. */
export function newNoted(
  therapist: Therapist,
  {
    patientId,
    origin,
    facts,
    leaving,
    bookings,
    observations,
    replies,
  }: Partial<Pick<Noted, 'facts' | 'leaving'>> & {
    readonly patientId: string;
    readonly origin: string;
    readonly bookings: readonly Omit<KeptBooking, 'bookingId'>[];
    readonly observations: readonly Omit<KeptObservation, 'observationId'>[];
    readonly replies: readonly Omit<KeptReply, 'replyId'>[];
  },
  at: Date,
): readonly Statement[] {
  const first = { expected: 0, reason: null };
  const entries: NotedEntry[] = [
    ...(facts
      ? [
          {
            ...first,
            kind: 'facts' as const,
            thing: patientId,
            submissionId: `${origin}/facts`,
            day: null,
            content: facts,
            deed: 'facts for the work written' as const,
          },
        ]
      : []),
    ...(leaving
      ? [
          {
            ...first,
            ...{ kind: 'leaving' as const, thing: patientId, submissionId: `${origin}/leaving`, day: leaving.day },
            ...{ content: leaving, deed: 'leaving gone through' as const },
          },
        ]
      : []),
    ...bookings.map((one, place) => ({
      ...first,
      ...{ kind: 'booking' as const, thing: crypto.randomUUID(), submissionId: `${origin}/booking ${place}` },
      ...{ day: one.day, content: BOOKING.parse(one), deed: 'visit booked' as const },
    })),
    ...observations.map((one, place) => ({
      ...first,
      ...{ kind: 'observation' as const, thing: crypto.randomUUID(), submissionId: `${origin}/observation ${place}` },
      ...{ day: one.day, content: OBSERVATION.parse(one), deed: 'observation added' as const },
    })),
    ...replies.map((one, place) => ({
      ...first,
      ...{ kind: 'reply' as const, thing: crypto.randomUUID(), submissionId: `${origin}/reply ${place}` },
      ...{ day: one.day, content: FAMILY_REPLY.parse(one), deed: 'reply of the family received' as const },
    })),
  ];
  return entries.flatMap((entry) => notedSteps(therapist, patientId, entry, at));
}

async function lastOf(ofKind: NotedKind, ofThing: string) {
  const database = await getDatabase();
  const { clinicId, patientId, number, kind, thing } = notedRevision;
  const [last] = await database
    .select({ clinicId, patientId, number })
    .from(notedRevision)
    .where(and(eq(kind, ofKind), eq(thing, ofThing)))
    .orderBy(desc(number))
    .limit(1);
  return last;
}

/** Whether this form was kept before: it is sent again when its answer was lost on the way. */
export async function isSubmitted(therapist: Therapist, submissionId: string): Promise<boolean> {
  const database = await getDatabase();
  const submitted = and(eq(notedRevision.clinicId, therapist.clinicId), eq(notedRevision.submissionId, submissionId));
  return (await database.$count(notedRevision, submitted)) > 0;
}
