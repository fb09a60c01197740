import { and, eq, inArray, sql } from 'drizzle-orm';
import { BOOKING } from '@/lib/diary/booking-schema';
import { type Diary, EVERY_DAY } from '@/lib/diary/diary';
import { DIARY } from '@/lib/diary/diary-schema';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { getDatabase } from '../client';
import { notedRevision } from '../schema/schema';
import type { Therapist } from '../therapist';
import { settingsOf } from './clinic';

/** Key of the clinic setting that holds when the clinic works. */
export const DIARY_KEY = 'diary';

/** When the clinic works; every day until a lead says otherwise. */
export async function diaryOf(therapist: Therapist): Promise<Diary> {
  const set = (await settingsOf(therapist)).get(DIARY_KEY);
  return set ? DIARY.parse(set.value) : EVERY_DAY;
}

/** How many visits of the whole clinic are booked on each of these days; `leave` is the booking that is being moved. One query. */
export async function bookedOn(
  therapist: Therapist,
  days: readonly CalendarDay[],
  leave: string | null = null,
): Promise<ReadonlyMap<CalendarDay, number>> {
  if (days.length === 0) return new Map();
  const database = await getDatabase();
  const { kind, thing, number, day, content, clinicId } = notedRevision;
  const rows = await database
    .select({ thing, day, content })
    .from(notedRevision)
    .where(
      and(
        eq(clinicId, therapist.clinicId),
        eq(kind, 'booking'),
        inArray(day, [...days]),
        sql`${number} = (select max(later.number) from noted_revision later where later.kind = 'booking' and later.thing = ${thing})`,
      ),
    );
  const counts = new Map<CalendarDay, number>();
  for (const row of rows) {
    if (!row.day || row.thing === leave || row.content === null || BOOKING.parse(row.content).state !== 'booked') continue;
    counts.set(row.day, (counts.get(row.day) ?? 0) + 1);
  }
  return counts;
}
