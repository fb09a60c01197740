import { columns } from '../sql/columns';
import { ofClinic } from './schema-clinic';
import { signature } from './schema-records';

const { table, id, text, wholeNumber, json, moment, index, uniqueIndex } = columns;

/**
 * A state of a study of measurers, or of one taping in it. Never changed; of a thing the highest number counts.
 *
 * `thing` is `plan`, or the taping by its short name. Limbs go by codes: no patient's record is in it.
 */
export const studyRevision = table(
  'study_revision',
  {
    id: id(),
    clinicId: ofClinic(),
    studyId: text().notNull(),
    thing: text().notNull(),
    number: wholeNumber().notNull(),
    content: json<unknown>().notNull(),
    ...signature(),
  },
  (row) => [
    uniqueIndex('study_revision_number').on(row.studyId, row.thing, row.number),
    uniqueIndex('study_revision_submission').on(row.clinicId, row.submissionId),
    index('study_revision_thing').on(row.clinicId, row.thing),
  ],
);

/** A taping of a study that is not saved yet, as last kept, for the one who types it. Goes when it is saved. */
export const studyDraft = table(
  'study_draft',
  {
    id: id(),
    clinicId: ofClinic(),
    studyId: text().notNull(),
    thing: text().notNull(),
    content: json<unknown>().notNull(),
    updatedAt: moment().notNull(),
  },
  (row) => [uniqueIndex('study_draft_of').on(row.studyId, row.thing)],
);
