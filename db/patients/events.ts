import { and, asc, eq, inArray } from 'drizzle-orm';
import type { PatientEvent } from '@/lib/record/patient-record';
import { auditEntry } from '../audit/audit-entry';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { patientEvent } from '../schema/schema';
import { assertMayWrite, type Therapist } from '../therapist';
import { inTransaction } from '../transaction';
import { invalidateWork } from './invalidate-work';
import { patientHead } from './patients';

/** An event as kept: whose it is, and who wrote it when. */
export type KeptEvent = PatientEvent & { readonly eventId: string; readonly patientId: string; readonly author: string; readonly at: Date };

/** How the saving of an event ended. */
export type EventSaved = { readonly kind: 'saved' | 'already-saved' | 'not-found' };

/** The events of these patients that were not withdrawn, by day: one query. */
export async function eventsOfPatients(therapist: Therapist, patientIds: readonly string[]): Promise<readonly KeptEvent[]> {
  if (patientIds.length === 0) return [];
  const database = await getDatabase();
  const rows = await database
    .select()
    .from(patientEvent)
    .where(and(eq(patientEvent.clinicId, therapist.clinicId), inArray(patientEvent.patientId, [...patientIds])))
    .orderBy(asc(patientEvent.day), asc(patientEvent.id));
  const gone = new Set(rows.map((row) => row.withdraws));
  return rows
    .filter((row) => row.withdraws === null && !gone.has(row.id))
    .map(({ id, patientId, day, kind, words, author, at }) => ({ eventId: id, patientId, day, kind, words, author, at }));
}

/** Adds an event to a patient. The same submission sent twice makes one. */
export async function addEvent(
  therapist: Therapist,
  entry: { readonly patientId: string; readonly submissionId: string; readonly event: PatientEvent },
  at = new Date(),
): Promise<EventSaved> {
  assertMayWrite(therapist);
  if (!(await patientHead(therapist, entry.patientId))) return { kind: 'not-found' };
  return insertEvent(therapist, { ...entry, withdraws: null, reason: null, action: 'event added' }, at);
}

/** Withdraws a mistaken event with a reason, by another row; the mistaken one stays readable. */
export async function withdrawEvent(
  therapist: Therapist,
  eventId: string,
  entry: { readonly submissionId: string; readonly reason: string },
  at = new Date(),
): Promise<EventSaved> {
  assertMayWrite(therapist);
  const database = await getDatabase();
  const [event] = await database
    .select()
    .from(patientEvent)
    .where(and(eq(patientEvent.clinicId, therapist.clinicId), eq(patientEvent.id, eventId)));
  if (!event || event.withdraws !== null) return { kind: 'not-found' };
  return insertEvent(therapist, { ...entry, patientId: event.patientId, event, withdraws: eventId, action: 'event withdrawn' }, at);
}

type Entry = {
  readonly patientId: string;
  readonly submissionId: string;
  readonly event: PatientEvent;
  readonly withdraws: string | null;
  readonly reason: string | null;
  readonly action: 'event added' | 'event withdrawn';
};

async function insertEvent(therapist: Therapist, entry: Entry, at: Date): Promise<EventSaved> {
  const written = await inTransaction([...eventSteps(therapist, entry, at), invalidateWork(therapist, entry.patientId)]);
  return { kind: written.kind === 'written' ? 'saved' : 'already-saved' };
}

/** The steps that add an event to a patient: its row, its note in the audit. */
export function newEvent(
  therapist: Therapist,
  entry: { readonly patientId: string; readonly submissionId: string; readonly event: PatientEvent },
  at: Date,
): readonly Statement[] {
  return eventSteps(therapist, { ...entry, withdraws: null, reason: null, action: 'event added' }, at);
}

function eventSteps(therapist: Therapist, entry: Entry, at: Date): readonly Statement[] {
  const { patientId, submissionId, withdraws, reason, action } = entry;
  const { day, kind, words } = entry.event;
  const who = { clinicId: therapist.clinicId, author: therapist.id, at };
  const row = { id: crypto.randomUUID(), patientId, day, kind, words, withdraws, reason, submissionId, ...who };
  return [
    (tx) => tx.insert(patientEvent).values(row).onConflictDoNothing().returning({ id: patientEvent.id }),
    auditEntry(therapist, { action, subjectKind: 'patient', subjectId: patientId, detail: { kind, day } }, at),
  ];
}
