import type { CalendarDay } from '@/lib/units/calendar-day';
import { columns } from '../sql/columns';
import { ofClinic } from './schema-clinic';
import { ofPatient, visit } from './schema-records';

const { table, id, text, json, moment, index } = columns;

/** What was answered to a caution card, with the wording and the limits it was asked with. Never changed; the latest of a card counts. */
export const cautionAnswer = table(
  'caution_answer',
  {
    id: id(),
    clinicId: ofClinic(),
    patientId: ofPatient(),
    visitId: text().references(() => visit.id),
    day: text().$type<CalendarDay>().notNull(),
    card: text().notNull(),
    cardVersion: text().notNull(),
    answer: text().notNull(),
    /** Figures answered with (an ankle–brachial index, its day and method) and the limits applied. */
    figures: json<Readonly<Record<string, unknown>>>(),
    wording: text().notNull(),
    words: text(),
    by: text().notNull(),
    at: moment().notNull(),
  },
  (row) => [index('caution_answer_latest').on(row.patientId, row.card, row.at)],
);
