import { columns } from '../sql/columns';
import { clinic, ofClinic } from './schema-clinic';
import { ofPatient } from './schema-records';

const { table, id, text, wholeNumber, moment, index } = columns;

/** The newest link of a clinic's audit chain. Counted up in the transaction of each write, so that processes queue for it. */
export const auditHead = table('audit_head', {
  clinicId: text()
    .primaryKey()
    .references(() => clinic.id),
  length: wholeNumber().notNull(),
  link: text().notNull(),
  /** Rows that were written before there was a chain, and sealed together when it began. */
  sealed: wholeNumber().notNull(),
});

/** A patient whose content was taken out of the record, by whom and why. Never changed; only with it the triggers let rows go. */
export const erasure = table(
  'erasure',
  { id: id(), clinicId: ofClinic(), patientId: ofPatient(), by: text().notNull(), at: moment().notNull(), reason: text().notNull() },
  (row) => [index('erasure_patient').on(row.patientId)],
);
