import { requireTherapist } from '@/app/_auth/therapist';
import { calendarResponse, changedSince } from '@/app/_calendar/calendar-response';
import { clinicOf } from '@/db/clinic/clinic';
import { alarmDaysOf } from '@/db/documents/calendar-alarm';
import { datesForCalendar } from '@/db/documents/calendar-feeds';
import { patientHead } from '@/db/patients/patients';

/** One patient's dates as a calendar file. */
export async function GET(_request: Request, { params }: { params: Promise<{ patientId: string }> }): Promise<Response> {
  const { patientId } = await params;
  const therapist = await requireTherapist(`/patients/${patientId}`);
  const head = await patientHead(therapist, patientId);
  if (!head) return new Response('There is no such patient in your clinic.', { status: 404 });
  const { timeZone } = await clinicOf(therapist);
  return calendarResponse(
    await datesForCalendar(therapist, patientId, changedSince()),
    { timeZone, alarmDays: await alarmDaysOf(therapist) },
    'patient-dates',
  );
}
