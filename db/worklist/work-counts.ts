import { and, eq, gte, inArray, lt, ne, sql } from 'drizzle-orm';
import { WORK_KINDS, type WorkGroup, type WorkKind } from '@/lib/schedule/worklist';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { getDatabase } from '../client';
import { workCount } from '../schema/schema';
import type { Therapist } from '../therapist';
import { PATIENT } from './work-diff';

/** How many lines of each kind (and first lines, as `all`) stand in each group. */
export type WorkTotals = ReadonlyMap<WorkKind | 'all', Readonly<Record<WorkGroup, number>>>;

/** A day of the weeks strip: how many lines of a kind are due on it. */
export type WorkDay = { readonly kind: WorkKind; readonly due: CalendarDay; readonly lines: number };

const NONE = { overdue: 0, 'this-week': 0, later: 0 } as const;

/** Totals of these kinds by group, from the counts by day: costs the days on which something is due, not the lines. */
export async function workTotals(
  therapist: Therapist,
  today: CalendarDay,
  later: CalendarDay,
  kinds: readonly (WorkKind | 'all')[],
): Promise<WorkTotals> {
  const database = await getDatabase();
  const { kind, due, lines, clinicId } = workCount;
  const sum = (days: ReturnType<typeof sql>) => sql`coalesce(sum(case when ${days} then ${lines} end), 0)`.mapWith(Number);
  const rows = await database
    .select({
      kind,
      overdue: sum(sql`${due} < ${today}`),
      week: sum(sql`${due} >= ${today} and ${due} < ${later}`),
      later: sum(sql`${due} >= ${later}`),
    })
    .from(workCount)
    .where(
      and(
        eq(clinicId, therapist.clinicId),
        inArray(
          kind,
          kinds.map((one) => (one === 'all' ? PATIENT : one)),
        ),
      ),
    )
    .groupBy(kind);
  return new Map(
    rows.map((row) => [
      row.kind === PATIENT ? 'all' : (row.kind as WorkKind),
      { overdue: row.overdue, 'this-week': row.week, later: row.later },
    ]),
  );
}

/** The totals of one kind; noughts when there is nothing of it. */
export function totalsOf(totals: WorkTotals, kind: WorkKind | 'all'): Readonly<Record<WorkGroup, number>> {
  return totals.get(kind) ?? NONE;
}

/** What is due on each day of a stretch, by day and kind. */
export async function workDays(therapist: Therapist, from: CalendarDay, before: CalendarDay): Promise<WorkDay[]> {
  const database = await getDatabase();
  const { kind, due, lines, clinicId } = workCount;
  const rows = await database
    .select({ kind, due, lines })
    .from(workCount)
    .where(and(eq(clinicId, therapist.clinicId), inArray(kind, [...WORK_KINDS]), gte(due, from), lt(due, before), ne(lines, 0)));
  return rows
    .map((row) => ({ ...row, kind: row.kind as WorkKind }))
    .sort((one, other) => one.due.localeCompare(other.due) || one.kind.localeCompare(other.kind));
}
