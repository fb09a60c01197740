import type { Phase } from '@/lib/course/phases';
import type { PatientEvent } from '@/lib/record/patient-record';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { columns } from '../sql/columns';
import { ofClinic } from './schema-clinic';
import { ofPatient, signature } from './schema-records';

const { table, id, text, wholeNumber, json, index, uniqueIndex } = columns;

/** Something after which a limb is no longer the same series; a mistaken one is withdrawn by another row. Never changed. */
export const patientEvent = table(
  'patient_event',
  {
    id: id(),
    clinicId: ofClinic(),
    patientId: ofPatient(),
    day: text().$type<CalendarDay>().notNull(),
    kind: text().$type<PatientEvent['kind']>().notNull(),
    words: text().notNull(),
    withdraws: text(),
    ...signature(),
  },
  (row) => [
    index('patient_event_day').on(row.patientId, row.day),
    uniqueIndex('patient_event_submission').on(row.clinicId, row.submissionId),
    uniqueIndex('patient_event_withdrawn').on(row.withdraws),
  ],
);

/**
 * The course of care as a person wrote it: every phase in order, in one row, because what may stand hangs on all of them. Never changed; the
 * highest number counts, and correcting or taking back a phase is another row. `diedOn` repeats the day of a death that is among them.
 */
export const courseRevision = table(
  'course_revision',
  {
    id: id(),
    clinicId: ofClinic(),
    patientId: ofPatient(),
    number: wholeNumber().notNull(),
    phases: json<readonly Phase[]>().notNull(),
    diedOn: text().$type<CalendarDay>(),
    ...signature(),
  },
  (row) => [
    uniqueIndex('course_revision_number').on(row.patientId, row.number),
    uniqueIndex('course_revision_submission').on(row.clinicId, row.submissionId),
  ],
);
