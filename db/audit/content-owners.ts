import { and, eq, inArray, isNull } from 'drizzle-orm';
import {
  account,
  calendarFeed,
  cautionAnswer,
  clinic,
  clinicSetting,
  courseRevision,
  erasure,
  garmentOrder,
  issuedDocument,
  ladder,
  movedDate,
  notedRevision,
  oneTimeLink,
  orderRevision,
  patient,
  patientCoverage,
  patientEvent,
  patientRevision,
  piece,
  pieceRevision,
  promptAnswer,
  recoveryCode,
  repeatTaping,
  secondFactor,
  shareLink,
  studyRevision,
  user,
  visit,
  visitRevision,
} from '../schema/schema';
import type { Database } from '../sql/database';

/** A row of content, the table it is in, and the patient it is about. */
export type OwnedRow = { readonly owner: string | null; readonly row: Readonly<Record<string, unknown>> };

type Read = PromiseLike<readonly OwnedRow[]>;

/** How to read every row of content about some patients, table by table. */
export const ROWS_OF_PATIENTS: Readonly<Record<string, (tx: Database, patients: string[]) => Read>> = {
  patient: (tx, ids) => tx.select({ owner: patient.id, row: patient }).from(patient).where(inArray(patient.id, ids)),
  patient_revision: (tx, ids) => direct(tx, patientRevision, ids),
  visit: (tx, ids) => direct(tx, visit, ids),
  piece: (tx, ids) => direct(tx, piece, ids),
  garment_order: (tx, ids) => direct(tx, garmentOrder, ids),
  issued_document: (tx, ids) => direct(tx, issuedDocument, ids),
  patient_event: (tx, ids) => direct(tx, patientEvent, ids),
  course_revision: (tx, ids) => direct(tx, courseRevision, ids),
  noted_revision: (tx, ids) => direct(tx, notedRevision, ids),
  prompt_answer: (tx, ids) => direct(tx, promptAnswer, ids),
  caution_answer: (tx, ids) => direct(tx, cautionAnswer, ids),
  moved_date: (tx, ids) => direct(tx, movedDate, ids),
  patient_coverage: (tx, ids) => direct(tx, patientCoverage, ids),
  calendar_feed: (tx, ids) => direct(tx, calendarFeed, ids),
  visit_revision: (tx, ids) =>
    tx
      .select({ owner: visit.patientId, row: visitRevision })
      .from(visitRevision)
      .innerJoin(visit, eq(visit.id, visitRevision.visitId))
      .where(inArray(visit.patientId, ids)),
  repeat_taping: (tx, ids) =>
    tx
      .select({ owner: visit.patientId, row: repeatTaping })
      .from(repeatTaping)
      .innerJoin(visit, eq(visit.id, repeatTaping.visitId))
      .where(inArray(visit.patientId, ids)),
  ladder: (tx, ids) =>
    tx
      .select({ owner: visit.patientId, row: ladder })
      .from(ladder)
      .innerJoin(visitRevision, eq(visitRevision.id, ladder.visitRevisionId))
      .innerJoin(visit, eq(visit.id, visitRevision.visitId))
      .where(inArray(visit.patientId, ids)),
  piece_revision: (tx, ids) =>
    tx
      .select({ owner: piece.patientId, row: pieceRevision })
      .from(pieceRevision)
      .innerJoin(piece, eq(piece.id, pieceRevision.pieceId))
      .where(inArray(piece.patientId, ids)),
  order_revision: (tx, ids) =>
    tx
      .select({ owner: garmentOrder.patientId, row: orderRevision })
      .from(orderRevision)
      .innerJoin(garmentOrder, eq(garmentOrder.id, orderRevision.orderId))
      .where(inArray(garmentOrder.patientId, ids)),
  share_link: (tx, ids) =>
    tx
      .select({ owner: issuedDocument.patientId, row: shareLink })
      .from(shareLink)
      .innerJoin(issuedDocument, eq(issuedDocument.id, shareLink.documentId))
      .where(inArray(issuedDocument.patientId, ids)),
};

/** How to read every row of content of a clinic that is about no patient. */
export const ROWS_OF_CLINIC: Readonly<Record<string, (tx: Database, clinicId: string) => Read>> = {
  clinic: (tx, id) => tx.select({ owner: clinic.id, row: clinic }).from(clinic).where(eq(clinic.id, id)),
  clinic_setting: (tx, id) =>
    tx.select({ owner: clinicSetting.clinicId, row: clinicSetting }).from(clinicSetting).where(eq(clinicSetting.clinicId, id)),
  study_revision: (tx, id) =>
    tx.select({ owner: studyRevision.clinicId, row: studyRevision }).from(studyRevision).where(eq(studyRevision.clinicId, id)),
  user: (tx, id) => tx.select({ owner: user.clinicId, row: user }).from(user).where(eq(user.clinicId, id)),
  erasure: (tx, id) => tx.select({ owner: erasure.clinicId, row: erasure }).from(erasure).where(eq(erasure.clinicId, id)),
  account: (tx, id) =>
    tx
      .select({ owner: user.clinicId, row: account })
      .from(account)
      .innerJoin(user, eq(user.id, account.userId))
      .where(eq(user.clinicId, id)),
  recovery_code: (tx, id) =>
    tx
      .select({ owner: user.clinicId, row: recoveryCode })
      .from(recoveryCode)
      .innerJoin(user, eq(user.id, recoveryCode.userId))
      .where(eq(user.clinicId, id)),
  second_factor: (tx, id) =>
    tx
      .select({ owner: user.clinicId, row: secondFactor })
      .from(secondFactor)
      .innerJoin(user, eq(user.id, secondFactor.id))
      .where(eq(user.clinicId, id)),
  one_time_link: (tx, id) =>
    tx
      .select({ owner: user.clinicId, row: oneTimeLink })
      .from(oneTimeLink)
      .innerJoin(user, eq(user.id, oneTimeLink.id))
      .where(eq(user.clinicId, id)),
  /** Addresses of the whole clinic. */
  calendar_feed: (tx, id) =>
    tx
      .select({ owner: calendarFeed.clinicId, row: calendarFeed })
      .from(calendarFeed)
      .where(and(eq(calendarFeed.clinicId, id), isNull(calendarFeed.patientId))),
};

/** The tables that carry the patient themselves. */
type Direct =
  | typeof patientRevision
  | typeof visit
  | typeof piece
  | typeof garmentOrder
  | typeof issuedDocument
  | typeof patientEvent
  | typeof courseRevision
  | typeof notedRevision
  | typeof promptAnswer
  | typeof cautionAnswer
  | typeof movedDate
  | typeof patientCoverage
  | typeof calendarFeed;

function direct(tx: Database, table: Direct, ids: string[]): Read {
  return tx.select({ owner: table.patientId, row: table }).from(table).where(inArray(table.patientId, ids));
}
