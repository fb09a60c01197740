import { and, eq, inArray, isNull, or, sql } from 'drizzle-orm';
import {
  answerOutcome,
  calendarFeed,
  cautionAnswer,
  courseRevision,
  draft,
  dueDate,
  garmentOrder,
  givenAnswer,
  importItem,
  issuedDocument,
  ladder,
  movedDate,
  notedRevision,
  orderRevision,
  patientCoverage,
  patientEvent,
  patientRevision,
  piece,
  pieceRevision,
  promptAnswer,
  repeatTaping,
  serviceCase,
  servicePart,
  shareLink,
  shareOpening,
  visit,
  visitRevision,
  workLine,
  workState,
} from '../schema/schema';
import type { Database } from '../sql/database';
import { type Query, rowsOf, type Steps } from '../sql/run-steps';

/** The ids of everything that belongs to a patient and that other rows hang on or deeds are about, and the references it was known by. */
export type ContentIds = Readonly<
  Record<'visits' | 'revisions' | 'pieces' | 'orders' | 'documents' | 'links' | 'feeds' | 'references', readonly string[]>
>;

/** Finds those ids. */
export function* idsOf(tx: Database, patientId: string): Steps<ContentIds> {
  const visits = plain(yield* rowsOf(tx.select({ id: visit.id }).from(visit).where(eq(visit.patientId, patientId))));
  const documents = plain(
    yield* rowsOf(tx.select({ id: issuedDocument.id }).from(issuedDocument).where(eq(issuedDocument.patientId, patientId))),
  );
  return {
    visits,
    documents,
    revisions: plain(yield* rowsOf(tx.select({ id: visitRevision.id }).from(visitRevision).where(inArray(visitRevision.visitId, visits)))),
    pieces: plain(yield* rowsOf(tx.select({ id: piece.id }).from(piece).where(eq(piece.patientId, patientId)))),
    orders: plain(yield* rowsOf(tx.select({ id: garmentOrder.id }).from(garmentOrder).where(eq(garmentOrder.patientId, patientId)))),
    links: plain(yield* rowsOf(tx.select({ id: shareLink.id }).from(shareLink).where(inArray(shareLink.documentId, documents)))),
    references: plain(
      yield* rowsOf(
        tx
          .selectDistinct({ id: sql<string>`lower(${patientRevision.reference})` })
          .from(patientRevision)
          .where(eq(patientRevision.patientId, patientId)),
      ),
    ),
    feeds: plain(yield* rowsOf(tx.select({ id: calendarFeed.id }).from(calendarFeed).where(eq(calendarFeed.patientId, patientId)))),
  };
}

/** Deletes everything of a patient but the row that bears the id; gives the number of rows. Who hangs on another goes first. */
export function* deleteContent(tx: Database, patientId: string, ids: ContentIds): Steps<number> {
  const { visits, revisions, pieces, orders, documents, links, references } = ids;
  const steps: readonly Query[] = [
    tx
      .delete(shareOpening)
      .where(inArray(shareOpening.linkId, [...links]))
      .returning(),
    tx
      .delete(shareLink)
      .where(inArray(shareLink.documentId, [...documents]))
      .returning(),
    tx.delete(issuedDocument).where(eq(issuedDocument.patientId, patientId)).returning(),
    tx
      .delete(orderRevision)
      .where(inArray(orderRevision.orderId, [...orders]))
      .returning(),
    tx.delete(garmentOrder).where(eq(garmentOrder.patientId, patientId)).returning(),
    tx
      .delete(pieceRevision)
      .where(inArray(pieceRevision.pieceId, [...pieces]))
      .returning(),
    tx.delete(piece).where(eq(piece.patientId, patientId)).returning(),
    tx.delete(answerOutcome).where(eq(answerOutcome.patientId, patientId)).returning(),
    tx.delete(serviceCase).where(eq(serviceCase.patientId, patientId)).returning(),
    tx.delete(servicePart).where(eq(servicePart.patientId, patientId)).returning(),
    tx.delete(givenAnswer).where(eq(givenAnswer.patientId, patientId)).returning(),
    tx.delete(cautionAnswer).where(eq(cautionAnswer.patientId, patientId)).returning(),
    tx
      .delete(repeatTaping)
      .where(inArray(repeatTaping.visitId, [...visits]))
      .returning(),
    tx
      .delete(ladder)
      .where(inArray(ladder.visitRevisionId, [...revisions]))
      .returning(),
    tx
      .delete(visitRevision)
      .where(inArray(visitRevision.visitId, [...visits]))
      .returning(),
    tx.delete(visit).where(eq(visit.patientId, patientId)).returning(),
    tx.delete(courseRevision).where(eq(courseRevision.patientId, patientId)).returning(),
    tx.delete(notedRevision).where(eq(notedRevision.patientId, patientId)).returning(),
    tx.delete(patientEvent).where(eq(patientEvent.patientId, patientId)).returning(),
    tx.delete(promptAnswer).where(eq(promptAnswer.patientId, patientId)).returning(),
    tx.delete(movedDate).where(eq(movedDate.patientId, patientId)).returning(),
    tx.delete(dueDate).where(eq(dueDate.patientId, patientId)).returning(),
    tx.delete(patientCoverage).where(eq(patientCoverage.patientId, patientId)).returning(),
    tx.delete(calendarFeed).where(eq(calendarFeed.patientId, patientId)).returning(),
    tx.delete(draft).where(eq(draft.patientId, patientId)).returning(),
    tx.delete(workLine).where(eq(workLine.patientId, patientId)).returning(),
    tx.delete(workState).where(eq(workState.patientId, patientId)).returning(),
    tx.delete(importItem).where(broughtInAs(patientId, references)).returning(),
    tx.delete(patientRevision).where(eq(patientRevision.patientId, patientId)).returning(),
  ];
  let rows = 0;
  for (const step of steps) rows += (yield step).length;
  return rows;
}

/** The lines of imports that brought the patient in, and those of the same reference that brought nobody in. */
function broughtInAs(patientId: string, references: readonly string[]) {
  const same = inArray(sql`lower(${importItem.reference})`, [...references]);
  return or(eq(importItem.patientId, patientId), and(isNull(importItem.patientId), same));
}

function plain(rows: readonly { readonly id: string }[]): string[] {
  return rows.map((row) => row.id);
}
