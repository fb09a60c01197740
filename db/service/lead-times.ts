import { gte, sql } from 'drizzle-orm';
import type { CountedDays } from '@/lib/service/days-spread';
import { addDays, type CalendarDay } from '@/lib/units/calendar-day';
import { getDatabase } from '../client';
import type { Therapist } from '../therapist';
import { deliveredOf } from './cases';

/** Deliveries older than this say little of what a maker does now. Clinic default. */
const LOOK_BACK_DAYS = 730;

/** Days from order to delivery of the pieces that came in the last two years, counted by form of garment. One query. */
export async function leadTimesByForm(therapist: Therapist, today: CalendarDay): Promise<ReadonlyMap<string, CountedDays>> {
  const database = await getDatabase();
  const delivered = deliveredOf(database, therapist);
  const n = sql<number>`count(*)`;
  const rows = await database
    .select({ form: delivered.form, days: delivered.days, n })
    .from(delivered)
    .where(gte(delivered.day, addDays(today, -LOOK_BACK_DAYS)))
    .groupBy(sql`${delivered.form}`, sql`${delivered.days}`);
  const found = new Map<string, { days: number; n: number }[]>();
  for (const { form, days, n: count } of rows) {
    if (form === null || days === null || Number(days) < 0) continue;
    found.set(form, [...(found.get(form) ?? []), { days: Number(days), n: Number(count) }]);
  }
  return found;
}
