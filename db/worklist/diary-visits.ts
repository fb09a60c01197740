import { and, asc, eq, gte, inArray, lt } from 'drizzle-orm';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { getDatabase } from '../client';
import { isNotDead } from '../patients/course';
import { dueDate, patient, patientRevision, workLine } from '../schema/schema';
import type { Therapist } from '../therapist';

/** What stands in the diary: a booked visit, one whose day passed without a word, or a visit that is due and not booked. */
const OF_DIARY = ['booking', 'not-said', 'visit'] as const;

/** A visit of a day, with whom; `why` is one sentence of what it is for, while it is asked for. */
export type DiaryVisit = {
  readonly id: string;
  readonly patientId: string;
  readonly reference: string;
  readonly name: string | null;
  readonly kind: (typeof OF_DIARY)[number];
  readonly kept: boolean;
  readonly day: CalendarDay;
  readonly time: string | null;
  readonly why: string | null;
};

/**
 * Visits of a clinic from one day up to another, day by day: those of an hour in its order, then those of some time, then what is due and not booked.
 *
 * Read from the stored dates by an index of their days; at most so many.
 */
export async function diaryVisits(therapist: Therapist, from: CalendarDay, before: CalendarDay, most: number): Promise<DiaryVisit[]> {
  const database = await getDatabase();
  const { id, patientId, kind, state, day, time } = dueDate;
  const rows = await database
    .select({
      id,
      patientId,
      reference: patientRevision.reference,
      name: patientRevision.name,
      kind,
      state,
      day,
      time,
      why: workLine.reason,
    })
    .from(dueDate)
    .innerJoin(patient, eq(patient.id, dueDate.patientId))
    .innerJoin(patientRevision, and(eq(patientRevision.patientId, patient.id), eq(patientRevision.number, patient.revision)))
    .leftJoin(workLine, and(eq(workLine.patientId, dueDate.patientId), eq(workLine.key, dueDate.key)))
    .where(
      and(
        eq(dueDate.clinicId, therapist.clinicId),
        inArray(state, ['open', 'done']),
        gte(day, from),
        lt(day, before),
        inArray(kind, [...OF_DIARY]),
        isNotDead(dueDate.patientId),
      ),
    )
    .orderBy(asc(day), asc(id))
    .limit(most);
  return rows
    .filter((row) => row.state === 'open' || row.kind === 'booking')
    .map(({ state: stands, ...row }) => ({ ...row, kind: row.kind as DiaryVisit['kind'], kept: stands === 'done' }))
    .sort((one, other) => one.day.localeCompare(other.day) || rankOf(one).localeCompare(rankOf(other)));
}

function rankOf({ kind, time, reference }: DiaryVisit): string {
  return `${kind === 'visit' ? 2 : time ? 0 : 1} ${time ?? ''} ${reference}`;
}
