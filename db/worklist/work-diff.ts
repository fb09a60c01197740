import { and, eq, inArray, sql } from 'drizzle-orm';
import type { ReviewedRecord } from '@/lib/record/next-visit';
import { howItEnded } from '@/lib/schedule/how-it-ended';
import { outlineFor, type PatientWork } from '@/lib/schedule/patient-work';
import type { DateKind, ScheduledDate } from '@/lib/schedule/scheduled-date';
import { earliestDue } from '@/lib/schedule/worklist';
import type { CalendarDay } from '@/lib/units/calendar-day';
import type { Statement } from '../audit/statement';
import { dueDate, workCount, workLine } from '../schema/schema';

/** A patient's lines and dates as they are stored. */
export type StoredLine = typeof workLine.$inferSelect;
export type StoredDate = typeof dueDate.$inferSelect;

type Owner = { readonly clinicId: string; readonly patientId: string };

/** The kinds of count that are not kinds of work: patients by the earliest day that anything of theirs is due, and patients that were ever renewed. */
export const PATIENT = 'patient';
export const KNOWN = 'known';
const NO_DAY = '' as CalendarDay;

/** What changes of a patient's stored lines: the statements, and what they add to the counts by day. */
export type LineChanges = { readonly statements: readonly Statement[]; readonly counts: readonly Count[] };

/** So many lines of a kind more (or fewer) on a day. */
type Count = { readonly kind: string; readonly due: CalendarDay; readonly lines: number };

/**
 * What makes the stored lines of a patient those of the work given. Only what differs is touched; no work at all is that of a record that
 * was taken back.
 */
export function lineChanges(owner: Owner, work: PatientWork | undefined, stored: readonly StoredLine[], isNew: boolean): LineChanges {
  const wanted = linesOf(owner, work);
  const standing = new Map(stored.map((line) => [line.key, line]));
  const added = wanted.filter((line) => fingerprint(line) !== fingerprint(standing.get(line.key)));
  const kept = new Set(wanted.filter((line) => !added.includes(line)).map((line) => line.key));
  const removed = stored.filter((line) => !kept.has(line.key));
  const statements: Statement[] = [];
  if (removed.length > 0) {
    const ids = removed.map((line) => line.id);
    statements.push((tx) => tx.delete(workLine).where(inArray(workLine.id, ids)).returning({ id: workLine.id }));
  }
  if (added.length > 0) {
    // A line keeps its id while its key stands, so that an answer form opened from an earlier page still finds it.
    const rows = added.map((line) => ({ id: standing.get(line.key)?.id ?? crypto.randomUUID(), ...line }));
    statements.push((tx) => tx.insert(workLine).values(rows).returning({ id: workLine.id }));
  }
  const known = isNew ? [{ kind: KNOWN, due: NO_DAY, lines: 1 }] : [];
  return { statements, counts: [...counted(removed, -1), ...counted(added, 1), ...known] };
}

function linesOf(owner: Owner, work: PatientWork | undefined): readonly Omit<StoredLine, 'id'>[] {
  if (!work) return [];
  return work.items.map((item, place) => {
    const { key, kind, due, title, reason, limb, prompt } = item;
    const first = place === 0;
    const soonest = first ? earliestDue(item, work.items) : due;
    const content = { key, kind, due, soonest, title, reason, limb, prompt };
    return { ...owner, ...content, first, behind: first ? work.items.length - 1 : 0, outline: outlineFor(limb, work.analysis) };
  });
}

function counted(lines: readonly Counted[], sign: number): readonly Count[] {
  return lines.flatMap(({ kind, due, soonest, first }) => [
    { kind, due, lines: sign },
    ...(first ? [{ kind: PATIENT, due: soonest, lines: sign }] : []),
  ]);
}

/** The statement that brings the counts up; rows are touched in one order, so that two renewals never wait for each other in a ring. */
export function countChanges(clinicId: string, counts: readonly Count[]): Statement[] {
  const sums = new Map<string, Count>();
  for (const one of counts) {
    const key = `${one.kind} ${one.due}`;
    sums.set(key, { ...one, lines: one.lines + (sums.get(key)?.lines ?? 0) });
  }
  const rows = [...sums.values()]
    .filter((change) => change.lines !== 0)
    .sort((one, other) => one.kind.localeCompare(other.kind) || one.due.localeCompare(other.due))
    .map((change) => ({ id: crypto.randomUUID(), clinicId, ...change }));
  if (rows.length === 0) return [];
  const sum = sql`${workCount.lines} + excluded.lines`;
  return [
    (tx) =>
      tx
        .insert(workCount)
        .values(rows)
        .onConflictDoUpdate({ target: [workCount.clinicId, workCount.kind, workCount.due], set: { lines: sum } })
        .returning({ id: workCount.id }),
  ];
}

type Counted = Pick<StoredLine, 'kind' | 'due' | 'soonest' | 'first'>;

/** Statements that bring a patient's dates up to the schedule: moved ones rise in sequence, gone ones are done or cancelled. */
export function dateChanges(
  owner: Owner,
  dates: readonly ScheduledDate[],
  stored: readonly StoredDate[],
  record: ReviewedRecord | undefined,
  at: Date,
): Statement[] {
  const standing = new Map(stored.map((date) => [date.key, date]));
  const wanted = new Set(dates.map((date) => date.key));
  const statements: Statement[] = [];
  const fresh = dates.filter((date) => !standing.has(date.key));
  if (fresh.length > 0) {
    const rows = fresh.map(({ key, kind, day, time = null, computed }) => {
      const state = 'open' as const;
      return { id: crypto.randomUUID(), ...owner, key, kind, day, time, computed, state, sequence: 0, changedAt: at };
    });
    statements.push((tx) => tx.insert(dueDate).values(rows).returning({ id: dueDate.id }));
  }
  for (const { key, day, time = null, computed } of dates) {
    const old = standing.get(key);
    if (!old || (old.day === day && old.time === time && old.computed === computed && old.state === 'open')) continue;
    const sequence = old.sequence + (old.day !== day || old.time !== time || old.state !== 'open' ? 1 : 0);
    statements.push(change(old, { day, time, computed, state: 'open', sequence, changedAt: at }));
  }
  for (const old of stored) {
    if (old.state !== 'open' || wanted.has(old.key)) continue;
    const state = record ? howItEnded({ key: old.key, kind: old.kind as DateKind }, record) : 'cancelled';
    statements.push(change(old, { state, sequence: old.sequence + 1, changedAt: at }));
  }
  return statements;
}

function change(old: StoredDate, set: Partial<StoredDate>): Statement {
  return (tx) =>
    tx
      .update(dueDate)
      .set(set)
      .where(and(eq(dueDate.id, old.id), eq(dueDate.sequence, old.sequence)))
      .returning({ id: dueDate.id });
}

/** Everything of a line in one text, whatever order an engine keeps the parts of its JSON in. */
function fingerprint(line: Omit<StoredLine, 'id'> | undefined): string {
  if (!line) return '';
  const { kind, due, soonest, title, reason, limb, prompt, first, behind } = line;
  const outline = line.outline as ReturnType<typeof outlineFor>;
  const parts = [kind, due, soonest, title, reason, limb?.limb, limb?.side, prompt?.cause, prompt?.inputs, first, behind];
  return JSON.stringify([...parts, outline?.side, outline?.heightsMm, outline?.girthsMm]);
}
