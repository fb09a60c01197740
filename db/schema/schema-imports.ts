import type { Mapping } from '@/lib/exchange/spreadsheet/mapping';
import type { PatientFile } from '@/lib/record/patient-file';
import { columns } from '../sql/columns';
import { ofClinic } from './schema-clinic';
import { patient } from './schema-records';

const { table, id, text, oneOf, wholeNumber, json, moment, index, uniqueIndex } = columns;

/** The heads that came of one patient of an import. */
export type AddedByImport = { readonly visits: readonly string[]; readonly pieces: readonly string[]; readonly orders: readonly string[] };

/**
 * A file that was brought in: what it was called, in which form, and how far bringing it in is. Its text is there only while a person
 * still says how it is to be read.
 */
export const dataImport = table(
  'data_import',
  {
    id: id(),
    clinicId: ofClinic(),
    by: text().notNull(),
    at: moment().notNull(),
    fileName: text().notNull(),
    form: oneOf('spreadsheet', 'set', 'bundle').notNull(),
    text: text(),
    mapping: json<Mapping>(),
    state: oneOf('reading', 'open', 'done', 'stopped', 'undone').notNull(),
  },
  (row) => [index('data_import_when').on(row.clinicId, row.at)],
);

/**
 * One patient of an import. `content` is there until it was brought in; then the patient and what was added, which an undo takes
 * away again. `words` says why nothing, or not everything, was brought in.
 */
export const importItem = table(
  'import_item',
  {
    id: id(),
    clinicId: ofClinic(),
    importId: text()
      .notNull()
      .references(() => dataImport.id),
    position: wholeNumber().notNull(),
    state: oneOf('waiting', 'new', 'extended', 'same', 'refused', 'stopped', 'undone').notNull(),
    reference: text(),
    content: json<PatientFile>(),
    patientId: text().references(() => patient.id),
    added: json<AddedByImport>(),
    words: text(),
  },
  (row) => [uniqueIndex('import_item_position').on(row.importId, row.position), index('import_item_patient').on(row.patientId)],
);
