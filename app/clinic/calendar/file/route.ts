import { calendarResponse, changedSince } from '@/app/_calendar/calendar-response';
import { requireTherapist } from '@/app/_session/therapist';
import { clinicOf } from '@/db/clinic/clinic';
import { datesForCalendar } from '@/db/documents/calendar-feeds';

/** The whole clinic's dates as a calendar file. */
export async function GET(): Promise<Response> {
  const therapist = await requireTherapist('/clinic/calendar');
  const { timeZone } = await clinicOf(therapist);
  return calendarResponse(await datesForCalendar(therapist, null, changedSince()), timeZone, 'clinic-dates');
}
