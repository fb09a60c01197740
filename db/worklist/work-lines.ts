import { and, asc, count, eq, gt, gte, inArray, lt, ne, or, type SQL } from 'drizzle-orm';
import type { WorkKind } from '@/lib/schedule/worklist';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { getDatabase } from '../client';
import { isNotDead } from '../patients/course';
import { patient, patientRevision, workLine, workState } from '../schema/schema';
import type { Therapist } from '../therapist';
import type { StoredLine } from './work-diff';

/** One stored line with whom it is about, and the day it holds for. */
export type WorkRow = StoredLine & {
  readonly kind: WorkKind;
  readonly reference: string;
  readonly name: string | null;
  readonly born: CalendarDay;
  readonly renewedFor: CalendarDay | null;
};

/** Which lines: every first one (`all`) or every one of a kind, due from a day and before another, after a place in the list. */
export type WorkWanted = {
  readonly kind: WorkKind | 'all';
  readonly from?: CalendarDay | undefined;
  readonly before?: CalendarDay | undefined;
  readonly after?: Place | undefined;
};

/** A place in a list by day: the day by which the last line seen stands there (`dayInList`), and its id. */
export type Place = { readonly due: CalendarDay; readonly id: string };

/** The day by which a line stands in a list: of the list of patients the earliest day of anything of its patient, of a kind's its own. */
export function dayInList({ due, soonest }: Pick<WorkRow, 'due' | 'soonest'>, kind: WorkWanted['kind']): CalendarDay {
  return kind === 'all' ? soonest : due;
}

/** The column by which such a list is ordered. */
type DayColumn = typeof workLine.soonest | typeof workLine.due;

const rowColumns = {
  line: workLine,
  reference: patientRevision.reference,
  name: patientRevision.name,
  born: patientRevision.born,
  renewedFor: workState.renewedFor,
};

/**
 * A page of lines by day. Under `all` referrals are left out: they stand in front, from `firstReferrals`.
 *
 * Walks one index from the place asked for and stops after `most` rows: what lies before or behind costs nothing.
 */
export async function workPage(therapist: Therapist, wanted: WorkWanted, most: number): Promise<WorkRow[]> {
  const { kind, from, before, after } = wanted;
  const day = kind === 'all' ? workLine.soonest : workLine.due;
  const ofKind = kind === 'all' ? and(eq(workLine.first, true), ne(workLine.kind, 'refer')) : eq(workLine.kind, kind);
  const fromDay = from ? gte(day, from) : undefined;
  const beforeDay = before ? lt(day, before) : undefined;
  return rows(
    and(eq(workLine.clinicId, therapist.clinicId), ofKind, fromDay, beforeDay, after ? behind(day, after) : undefined),
    day,
    most,
  );
}

/** Lines that tell a prescriber and are first of their patient, by day. Read by kind, which is an index of its own: referrals are few. */
export async function firstReferrals(therapist: Therapist, most: number): Promise<WorkRow[]> {
  const found = await rows(and(eq(workLine.clinicId, therapist.clinicId), eq(workLine.kind, 'refer')), workLine.due, most);
  return found.filter((row) => row.first);
}

/** Lines of these patients: first ones, or those of a kind. For a search, whose patients are few. */
export async function workOf(therapist: Therapist, patientIds: readonly string[], kind: WorkKind | 'all'): Promise<WorkRow[]> {
  if (patientIds.length === 0) return [];
  const ofKind = kind === 'all' ? eq(workLine.first, true) : eq(workLine.kind, kind);
  const day = kind === 'all' ? workLine.soonest : workLine.due;
  return rows(
    and(eq(workLine.clinicId, therapist.clinicId), inArray(workLine.patientId, [...patientIds]), ofKind),
    day,
    patientIds.length * 20,
  );
}

/** How many lines of each of these patients were due before a day; a patient without one is left out. For those on one page, who are few. */
export async function overdueOf(
  therapist: Therapist,
  patientIds: readonly string[],
  today: CalendarDay,
): Promise<ReadonlyMap<string, number>> {
  if (patientIds.length === 0) return new Map();
  const database = await getDatabase();
  const { clinicId, patientId, due } = workLine;
  const found = await database
    .select({ patientId, lines: count() })
    .from(workLine)
    .where(and(eq(clinicId, therapist.clinicId), inArray(patientId, [...patientIds]), lt(due, today)))
    .groupBy(patientId);
  return new Map(found.map((one) => [one.patientId, one.lines]));
}

function behind(day: DayColumn, { due, id }: Place): SQL | undefined {
  return and(gte(day, due), or(gt(day, due), gt(workLine.id, id)));
}

async function rows(where: SQL | undefined, day: DayColumn, most: number): Promise<WorkRow[]> {
  const database = await getDatabase();
  const found = await database
    .select(rowColumns)
    .from(workLine)
    .innerJoin(patient, eq(patient.id, workLine.patientId))
    .innerJoin(patientRevision, and(eq(patientRevision.patientId, patient.id), eq(patientRevision.number, patient.revision)))
    .innerJoin(workState, eq(workState.patientId, workLine.patientId))
    .where(and(where, isNotDead(workLine.patientId)))
    .orderBy(asc(day), asc(workLine.id))
    .limit(most);
  return found.map(({ line, ...head }) => ({ ...line, kind: line.kind as WorkKind, ...head }));
}
