import 'server-only';
import { after } from 'next/server';
import { unlessTrouble } from '@/db/sql/storage-trouble';
import type { Therapist } from '@/db/therapist';
import { refreshStale, workAim } from '@/db/worklist/refresh-work';
import { staleCount } from '@/db/worklist/stale-work';
import type { CalendarDay } from '@/lib/units/calendar-day';

/** Patients looked at before the page is shown; more than these are looked at after it. */
const FEW = 5;
/** How long one request goes on looking at patients after its page was sent. */
const AFTER_MS = 3000;
/** Looks at a few stale patients now and at the rest after the page was sent; how many are behind, and how many there are. */
export async function freshWork(therapist: Therapist, today: CalendarDay): Promise<Awaited<ReturnType<typeof staleCount>>> {
  const aim = await workAim(therapist, today);
  let stale = await staleCount(therapist, aim);
  if (stale.behind > 0 && stale.behind <= FEW) {
    await unlessTrouble(() => refreshStale(therapist, today, { most: FEW }));
    stale = await staleCount(therapist, aim);
  }
  if (stale.behind > 0) {
    after(async () => {
      const started = Date.now();
      await unlessTrouble(() => refreshStale(therapist, today, { until: () => Date.now() - started > AFTER_MS }));
    });
  }
  return stale;
}
