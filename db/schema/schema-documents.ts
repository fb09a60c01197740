import { columns } from '../sql/columns';
import { ofClinic } from './schema-clinic';
import { ofPatient, visit } from './schema-records';

const { table, id, text, oneOf, wholeNumber, json, moment, index, uniqueIndex } = columns;

/** A page or letter as a person approved or signed it: whole and frozen, with the version of its wording. Never changed. */
export const issuedDocument = table(
  'issued_document',
  {
    id: id(),
    clinicId: ofClinic(),
    patientId: ofPatient(),
    visitId: text().references(() => visit.id),
    kind: oneOf('family-page', 'replacement-letter').notNull(),
    language: text().notNull(),
    templateVersion: wholeNumber().notNull(),
    content: json<unknown>().notNull(),
    author: text().notNull(),
    at: moment().notNull(),
    submissionId: text().notNull(),
  },
  (row) => [
    index('issued_document_of').on(row.patientId, row.at),
    uniqueIndex('issued_document_submission').on(row.clinicId, row.submissionId),
  ],
);

/** A link to one approved family page, for someone without an account: only the hash of its token is kept. */
export const shareLink = table(
  'share_link',
  {
    id: id(),
    clinicId: ofClinic(),
    documentId: text()
      .notNull()
      .references(() => issuedDocument.id),
    tokenHash: text().notNull(),
    expiresAt: moment().notNull(),
    by: text().notNull(),
    at: moment().notNull(),
    withdrawnAt: moment(),
    withdrawnBy: text(),
  },
  (row) => [uniqueIndex('share_link_token').on(row.tokenHash), index('share_link_document').on(row.documentId)],
);

/** Each time a link was opened: the token is exchanged for a cookie, of which only the hash is kept. Never changed. */
export const shareOpening = table(
  'share_opening',
  {
    id: id(),
    linkId: text()
      .notNull()
      .references(() => shareLink.id),
    cookieHash: text().notNull(),
    at: moment().notNull(),
  },
  (row) => [uniqueIndex('share_opening_cookie').on(row.cookieHash), index('share_opening_link').on(row.linkId, row.at)],
);
