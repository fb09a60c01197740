import 'server-only';
import { appAddress } from '@/app/_auth/app-address';
import { todayIn } from '@/app/_auth/today';
import { CANCELLED_DAYS, calendarEntries, type StoredDay } from '@/lib/schedule/calendar-entries';
import { calendarFile } from '@/lib/schedule/calendar-file';

/** From when on dates that fell away are read: one day more than they stay in the file, for any time zone. */
export function changedSince(now = Date.now()): Date {
  return new Date(now - (CANCELLED_DAYS + 1) * 86_400_000);
}

/** Stored dates as a calendar file, never kept by anyone on the way. */
export async function calendarResponse(
  dates: readonly StoredDay[],
  { timeZone, alarmDays }: { readonly timeZone: string; readonly alarmDays: number | null },
  fileName: string,
): Promise<Response> {
  const entries = calendarEntries(dates, 'rungwise.invalid', todayIn(timeZone), { address: await appAddress(), alarmDays, timeZone });
  return new Response(calendarFile(entries, 'Garment dates'), {
    headers: {
      'Content-Type': 'text/calendar; charset=utf-8',
      'Content-Disposition': `attachment; filename="${fileName}.ics"`,
      'Cache-Control': 'no-store',
      'X-Robots-Tag': 'noindex',
    },
  });
}
