import { stringify } from 'devalue';
import { requireRole } from '@/app/_auth/therapist';
import { timeIn, todayIn } from '@/app/_auth/today';
import { buildId } from '@/app/_offline/build-id';
import type { KeptLine, KeptList, KeptSheet } from '@/app/_offline/offline-data';
import { signedOn } from '@/app/_offline/signed-on';
import { loadNewSheet } from '@/app/_sheet/load-new-sheet';
import { lineView } from '@/app/_today/line-view';
import { GROUP_HEADS, loadToday } from '@/app/_today/load-today';
import { readView } from '@/app/_today/today-address';
import { clinicOf } from '@/db/clinic/clinic';
import { IDLE_SECONDS } from '@/db/people/sessions';
import type { Therapist } from '@/db/therapist';
import type { CalendarDay } from '@/lib/units/calendar-day';

/** Due visits whose sheets are kept without being opened, at most. */
const MOST_DUE = 12;

/** What a device keeps for a day without a connection: the list of today, or (`patient`) the sheet of one patient's new visit. */
export async function GET(request: Request): Promise<Response> {
  const therapist = await requireRole('lead', 'therapist');
  const patientId = new URL(request.url).searchParams.get('patient');
  const { timeZone } = await clinicOf(therapist);
  const now = { build: buildId(), day: todayIn(timeZone), at: timeIn(timeZone) };
  const kept = patientId === null ? await keptList(therapist, now, timeZone) : await keptSheet(therapist, now, patientId);
  // A sheet holds maps, which JSON alone would leave behind.
  return kept ? new Response(stringify(kept), { headers: { 'cache-control': 'no-store' } }) : new Response(null, { status: 404 });
}

type Now = { readonly build: string; readonly day: CalendarDay; readonly at: string };

async function keptSheet(therapist: Therapist, now: Now, patientId: string): Promise<KeptSheet | undefined> {
  const loaded = await loadNewSheet(therapist, patientId);
  return loaded?.kind === 'sheet' ? { ...now, data: loaded.data, reminders: loaded.reminders } : undefined;
}

async function keptList(therapist: Therapist, now: Now, timeZone: string): Promise<KeptList> {
  const view = readView({});
  const { groups } = await loadToday(therapist, view, now.day);
  const due = groups.flatMap(({ rows }) => rows).filter(({ kind, due }) => kind === 'visit' && due <= now.day);
  return {
    ...now,
    timeZone,
    groups: groups.map(({ group, rows, total }) => ({
      head: GROUP_HEADS[group],
      total,
      lines: rows.map((row): KeptLine => {
        const { id, patientId, day, over, who, about, title, reason } = lineView(row, 0, now.day, view, false);
        return { id, patientId, day, over: over ?? null, who, about, title, reason };
      }),
    })),
    dueToday: [...new Set(due.map(({ patientId }) => patientId))].slice(0, MOST_DUE),
    idleSeconds: IDLE_SECONDS,
    waiting: signedOn(therapist).waiting,
  };
}
