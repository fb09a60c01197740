import { requireTherapist } from '@/app/_auth/therapist';
import { calendarResponse, changedSince } from '@/app/_calendar/calendar-response';
import { clinicOf } from '@/db/clinic/clinic';
import { alarmDaysOf } from '@/db/documents/calendar-alarm';
import { datesForCalendar } from '@/db/documents/calendar-feeds';

/** The whole clinic's dates as a calendar file. */
export async function GET(): Promise<Response> {
  const therapist = await requireTherapist('/clinic/calendar');
  const { timeZone } = await clinicOf(therapist);
  return calendarResponse(
    await datesForCalendar(therapist, null, changedSince()),
    { timeZone, alarmDays: await alarmDaysOf(therapist) },
    'clinic-dates',
  );
}
