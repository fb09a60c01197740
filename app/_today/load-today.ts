import 'server-only';
import { findPatients } from '@/db/patients/find-patients';
import type { Therapist } from '@/db/therapist';
import { ownPatients } from '@/db/worklist/own-patients';
import { totalsOf, type WorkDay, type WorkTotals, workDays, workTotals } from '@/db/worklist/work-counts';
import { dayInList, firstReferrals, overdueOf, type WorkRow, workOf, workPage } from '@/db/worklist/work-lines';
import { groupOf, laterFrom, WORK_KINDS, type WorkGroup } from '@/lib/schedule/worklist';
import { addDays, type CalendarDay } from '@/lib/units/calendar-day';
import { freshWork } from './fresh-work';
import type { TodayView } from './today-address';

const GROUPS = ['overdue', 'this-week', 'later'] as const satisfies readonly WorkGroup[];
/** The heads of the groups. */
export const GROUP_HEADS: Readonly<Record<WorkGroup, string>> = { overdue: 'Overdue', 'this-week': 'This week', later: 'Later' };
/** Lines of a group on one page. */
const PAGE: Readonly<Record<WorkGroup, number>> = { overdue: 12, 'this-week': 12, later: 6 };
/** Referrals in front of the list; more are found under their own filter. */
const MOST_REFERRALS = 50;
const MOST_FOUND = 200;
/** Patients looked at under “Mine”: those seen last. */
const MOST_MINE = 500;
export const STRIP = { back: 16, ahead: 46 } as const;

/** One group as shown: its lines, how many there are in all, and whether more follow. */
export type ShownGroup = { readonly group: WorkGroup; readonly rows: readonly WorkRow[]; readonly total: number; readonly more: boolean };

/** Everything the first screen shows. */
export type Today = {
  readonly groups: readonly ShownGroup[];
  readonly all: Readonly<Record<WorkGroup, number>>;
  /** Lines that are overdue, of every patient: what the heads of the kinds sum up to. */
  readonly overdueLines: number;
  /** Of each patient shown how many lines are overdue. */
  readonly overdueOf: ReadonlyMap<string, number>;
  readonly days: readonly WorkDay[];
  readonly behind: number;
  readonly patients: number;
  /** The next visit after this week, for a week with nothing in it. */
  readonly nextVisit: WorkRow | undefined;
  /** With a search: how many patients match it. */
  readonly matches: number | null;
  /** Pieces on their way to the clinic. */
  readonly awaited: number;
};

/** Reads the first screen from the stored lines and counts. A few stale patients are looked at first, the rest after the page was sent. */
export async function loadToday(therapist: Therapist, view: TodayView, today: CalendarDay): Promise<Today> {
  const stale = await freshWork(therapist, today);
  const later = laterFrom(today);
  const [totals, days] = await Promise.all([
    workTotals(therapist, today, later, ['all', ...WORK_KINDS]),
    workDays(therapist, addDays(today, -STRIP.back), addDays(today, STRIP.ahead + 1)),
  ]);
  const few = view.q
    ? await searched(therapist, view.q)
    : view.mine
      ? { of: await ownPatients(therapist, MOST_MINE), matches: null }
      : null;
  const found = few
    ? { groups: await ofPatients(therapist, view, today, few.of), matches: few.matches }
    : { groups: await pages(therapist, view, today, totals), matches: null };
  const quiet = found.groups.every((one) => one.group !== 'this-week' || one.total === 0);
  const [nextVisit] = quiet ? await workPage(therapist, { kind: 'visit', from: later }, 1) : [];
  const awaited = Object.values(totalsOf(totals, 'delivery')).reduce((sum, lines) => sum + lines, 0);
  const overdueLines = WORK_KINDS.reduce((sum, kind) => sum + totalsOf(totals, kind).overdue, 0);
  const withMore = found.groups.flatMap(({ rows }) => rows.filter(({ behind }) => behind > 0).map(({ patientId }) => patientId));
  const late = await overdueOf(therapist, withMore, today);
  return { ...stale, ...found, all: totalsOf(totals, 'all'), overdueLines, overdueOf: late, days, nextVisit, awaited };
}

async function pages(therapist: Therapist, view: TodayView, today: CalendarDay, totals: WorkTotals): Promise<ShownGroup[]> {
  const later = laterFrom(today);
  const bounds = { overdue: { before: today }, 'this-week': { from: today, before: later }, later: { from: later } } as const;
  const total = totalsOf(totals, view.kind);
  const urgent = view.kind === 'all' && (totals.get('refer') ?? null) !== null ? await firstReferrals(therapist, MOST_REFERRALS) : [];
  return Promise.all(
    GROUPS.map(async (group): Promise<ShownGroup> => {
      if (total[group] === 0) return { group, rows: [], total: 0, more: false };
      const after = view.places[group];
      const found = await workPage(therapist, { kind: view.kind, after, ...bounds[group] }, PAGE[group] + 1);
      const front = after ? [] : urgent.filter((row) => groupOf(row.soonest, today) === group);
      return { group, rows: [...front, ...found.slice(0, PAGE[group])], total: total[group], more: found.length > PAGE[group] };
    }),
  );
}

async function searched(therapist: Therapist, q: string) {
  const found = await findPatients(therapist, q, 1, MOST_FOUND);
  return { of: found.rows.map((row) => row.patientId), matches: found.total };
}

/** The lines of a few patients, whole. */
async function ofPatients(
  therapist: Therapist,
  { kind, mine, q }: TodayView,
  today: CalendarDay,
  patientIds: readonly string[],
): Promise<ShownGroup[]> {
  const own = mine && q ? new Set(await ownPatients(therapist, MOST_MINE)) : undefined;
  const rows = await workOf(therapist, own ? patientIds.filter((id) => own.has(id)) : patientIds, kind);
  return GROUPS.map((group) => {
    const due = rows.filter((row) => groupOf(dayInList(row, kind), today) === group);
    return { group, rows: due, total: due.length, more: false };
  });
}
