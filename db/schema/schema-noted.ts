import type { CalendarDay } from '@/lib/units/calendar-day';
import { columns } from '../sql/columns';
import { ofClinic } from './schema-clinic';
import { ofPatient, signature } from './schema-records';

const { table, id, text, wholeNumber, json, index, uniqueIndex } = columns;

/** What is noted of a patient beside the measures: who they are for the work, a booked visit, something looked at, what was gone through before they left, what the family sent back. */
export const NOTED_KINDS = ['facts', 'booking', 'observation', 'leaving', 'reply'] as const;
export type NotedKind = (typeof NOTED_KINDS)[number];

/**
 * A state of one noted thing. Never changed; of a thing the highest number counts, and a content of null is one that was taken back.
 *
 * `thing` names it among those of its kind: the facts and the leaving of a patient bear the patient's own id. `day` repeats the day that a booking is for, an
 * observation is of or a reply came, to be found by. The author of a reply is the link it came by.
 */
export const notedRevision = table(
  'noted_revision',
  {
    id: id(),
    clinicId: ofClinic(),
    patientId: ofPatient(),
    kind: text().$type<NotedKind>().notNull(),
    thing: text().notNull(),
    number: wholeNumber().notNull(),
    day: text().$type<CalendarDay>(),
    content: json<unknown>(),
    ...signature(),
  },
  (row) => [
    uniqueIndex('noted_revision_number').on(row.kind, row.thing, row.number),
    uniqueIndex('noted_revision_submission').on(row.clinicId, row.submissionId),
    index('noted_revision_patient').on(row.patientId, row.kind),
    index('noted_revision_day').on(row.clinicId, row.kind, row.day),
  ],
);
