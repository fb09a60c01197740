import { z } from 'zod';
import { settingsOf } from '../clinic/clinic';
import type { Therapist } from '../therapist';

/** Key of the clinic setting that holds when calendar programs remind. */
export const ALARM_KEY = 'calendar-alarm';

/** Days before a date on which calendar programs remind: one to four weeks; null for no reminder, as it stands until a lead sets one. */
export const ALARM_DAYS = z.number().int().min(1).max(28).nullable();

/** When calendar programs remind of a clinic's dates; null for no reminder. */
export async function alarmDaysOf(clinic: Pick<Therapist, 'clinicId'>): Promise<number | null> {
  return ALARM_DAYS.catch(null).parse((await settingsOf(clinic)).get(ALARM_KEY)?.value ?? null);
}
