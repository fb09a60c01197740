/** Every table, for the database client and its migrations. */
export { account, countedTry, oneTimeLink, recoveryCode, secondFactor, session, user, verification } from './schema-auth';
export { audit, clinic, clinicSetting } from './schema-clinic';
export { courseRevision, patientEvent } from './schema-course';
export { issuedDocument, shareLink, shareOpening } from './schema-documents';
export { auditHead, erasure } from './schema-history';
export { dataImport, importItem } from './schema-imports';
export { notedRevision } from './schema-noted';
export { garmentOrder, orderRevision } from './schema-orders';
export {
  draft,
  ladder,
  patient,
  patientRevision,
  piece,
  pieceRevision,
  repeatTaping,
  visit,
  visitRevision,
} from './schema-records';
export { cautionAnswer } from './schema-safety';
export {
  answerOutcome,
  calendarFeed,
  dueDate,
  givenAnswer,
  movedDate,
  patientCoverage,
  promptAnswer,
  serviceCase,
  workCount,
  workLine,
  workState,
} from './schema-schedule';
export { serviceCount, servicePart } from './schema-service';
export { studyDraft, studyRevision } from './schema-study';
