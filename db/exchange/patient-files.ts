import { and, asc, eq, gt, inArray } from 'drizzle-orm';
import { groupedBy } from '@/lib/record/grouped-by';
import type { PatientFile, VisitWriting } from '@/lib/record/patient-file';
import { getDatabase } from '../client';
import { type KeptOrder, ordersOfPatients } from '../patients/read-orders';
import type { KeptPiece } from '../patients/read-pieces';
import type { KeptVisit } from '../patients/read-visits';
import { type KeptRecord, recordsOf } from '../patients/records';
import { patient, user, visit, visitRevision } from '../schema/schema';
import { readEach } from '../sql/read-each';
import type { Therapist } from '../therapist';

/** How many patients are read at once when the whole clinic goes out: memory is bounded by them. */
const PAGE = 50;

/** A patient's id beside everything of theirs that goes out. */
export type OutgoingPatient = { readonly patientId: string; readonly file: PatientFile };

/** These patients as files, in the order asked for; others' patients are left out. */
export async function patientFiles(therapist: Therapist, patientIds: readonly string[]): Promise<readonly OutgoingPatient[]> {
  const records = await recordsOf(therapist, patientIds);
  const orders = groupedBy(await ordersOfPatients(therapist, patientIds), (order) => order.patientId);
  const writings = await writingsOf(therapist, patientIds);
  return records.map((record) => ({
    patientId: record.head.patientId,
    file: fileOf(record, orders.get(record.head.patientId) ?? [], writings),
  }));
}

/**
 * Every patient of the clinic as a file, a page at a time.
 *
 * They come by id, or in the order of a rank that is made for one export, so that no place in a file tells who somebody is in another. A
 * patient one of whose rows cannot be read is named to `unreadable`, by reference, and the others go on.
 */
export async function* everyPatientFile(
  therapist: Therapist,
  {
    rank,
    unreadable = () => {},
  }: { readonly rank?: ((patientId: string) => string) | undefined; readonly unreadable?: (reference: string) => void } = {},
): AsyncGenerator<OutgoingPatient> {
  for await (const page of rank ? pagesByRank(therapist, rank) : pagesById(therapist)) {
    const { read, failed } = await readEach(page, (some) =>
      patientFiles(
        therapist,
        some.map(({ id }) => id),
      ),
    );
    for (const { reference } of failed) unreadable(reference);
    yield* read;
  }
}

type PatientOfPage = { readonly id: string; readonly reference: string };

async function* pagesByRank(therapist: Therapist, rank: (patientId: string) => string): AsyncGenerator<readonly PatientOfPage[]> {
  const database = await getDatabase();
  const all = await database
    .select({ id: patient.id, reference: patient.referenceKey })
    .from(patient)
    .where(eq(patient.clinicId, therapist.clinicId));
  const ranked = all.map((one) => ({ one, rank: rank(one.id) })).sort((one, other) => (one.rank < other.rank ? -1 : 1));
  for (let at = 0; at < ranked.length; at += PAGE) yield ranked.slice(at, at + PAGE).map(({ one }) => one);
}

async function* pagesById(therapist: Therapist): AsyncGenerator<readonly PatientOfPage[]> {
  const database = await getDatabase();
  for (let last = ''; ; ) {
    const page = await database
      .select({ id: patient.id, reference: patient.referenceKey })
      .from(patient)
      .where(and(eq(patient.clinicId, therapist.clinicId), gt(patient.id, last)))
      .orderBy(asc(patient.id))
      .limit(PAGE);
    const end = page.at(-1);
    if (!end) return;
    yield page;
    last = end.id;
  }
}

/** How many patients the clinic has. */
export async function patientCount(therapist: Therapist): Promise<number> {
  const database = await getDatabase();
  return database.$count(patient, eq(patient.clinicId, therapist.clinicId));
}

function fileOf(record: KeptRecord, orders: readonly KeptOrder[], writings: ReadonlyMap<string, readonly VisitWriting[]>): PatientFile {
  const { patientId, revision, affectedParts, ...details } = record.head;
  const numberOf = new Map(orders.map((order) => [order.orderId, order.order]));
  return {
    details: affectedParts ? { ...details, affectedParts } : details,
    visits: record.visits.map(filedVisit),
    pieces: record.pieces.map((piece) => filedPiece(piece, numberOf)),
    orders: orders.map(({ orderId, patientId, revision, author, at, reason, ...order }) => order),
    events: record.events.map(({ day, kind, words }) => ({ day, kind, words })),
    phases: record.phases,
    cautions: record.cautions.map(({ card, cardVersion, answer, day, words, figures, wording }) => ({
      card,
      cardVersion,
      answer,
      day,
      words,
      figures,
      wording,
    })),
    ...(record.facts && { facts: record.facts }),
    ...(record.leaving && { leaving: record.leaving }),
    ...(record.bookings.length > 0 && { bookings: record.bookings.map(({ bookingId, number, ...one }) => one) }),
    ...(record.observations.length > 0 && { observations: record.observations.map(({ observationId, number, ...one }) => one) }),
    ...(record.replies.length > 0 && { replies: record.replies.map(({ replyId, number, ...one }) => one) }),
    writings: record.visits.flatMap((one) => writings.get(one.visitId) ?? []),
  };
}

function filedVisit({ visitId, patientId, revision, author, authorName, at, reason, measurerId, ...measured }: KeptVisit) {
  return { ...measured, id: visitId };
}

function filedPiece(
  { pieceId, patientId, revision, author, at, reason, orderId, ...piece }: KeptPiece,
  numberOf: ReadonlyMap<string, number>,
) {
  return { ...piece, order: (orderId && numberOf.get(orderId)) || null };
}

async function writingsOf(therapist: Therapist, patientIds: readonly string[]): Promise<ReadonlyMap<string, readonly VisitWriting[]>> {
  if (patientIds.length === 0) return new Map();
  const database = await getDatabase();
  const rows = await database
    .select({
      visitId: visit.id,
      number: visitRevision.number,
      author: visitRevision.author,
      name: user.name,
      at: visitRevision.at,
      reason: visitRevision.reason,
    })
    .from(visit)
    .innerJoin(visitRevision, eq(visitRevision.visitId, visit.id))
    .leftJoin(user, eq(user.id, visitRevision.author))
    .where(and(eq(visit.clinicId, therapist.clinicId), inArray(visit.patientId, [...patientIds])))
    .orderBy(asc(visitRevision.visitId), asc(visitRevision.number));
  return groupedBy(
    rows.map(({ name, author, at, ...row }) => ({ ...row, author: name ?? author, at: at.toISOString() })),
    ({ visitId }) => visitId,
  );
}
