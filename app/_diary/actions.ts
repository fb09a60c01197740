'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { type LoadedPatient, loadPatient } from '@/app/_record/load-patient';
import { bookedOn } from '@/db/clinic/diary';
import { isSubmitted, saveNoted } from '@/db/patients/noted';
import type { Therapist } from '@/db/therapist';
import { refreshPatient } from '@/db/worklist/refresh-work';
import { restsOn } from '@/lib/course/phases';
import { BOOKING_STATES, type Booking, readBooking } from '@/lib/diary/booking';
import { readDay } from '@/lib/units/calendar-day';

/** What stops the form of a booking, what it asks about, and everything as it was typed. */
export type BookingFormState = {
  readonly errors: Readonly<Record<string, string>>;
  readonly asks: readonly string[];
  readonly typed: Readonly<Record<string, string>> | null;
};

const STALE = 'This booking has changed since the page was opened. Nothing was saved; open the page anew.';
const LONGEST_REASON = 200;

/** Books a visit, or moves one that is booked to another day or time: the earlier state stays. A closed or full day is asked about. */
export async function bookAction(_before: BookingFormState, form: FormData): Promise<BookingFormState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = postedText(form);
  const { patientId = '', submissionId = '', bookingId = '' } = typed;
  if (await isSubmitted(therapist, submissionId)) redirect(bookingsOf(patientId));
  const loaded = await loadPatient(therapist, patientId);
  const { record, today, diary } = loaded;
  const standing = record.bookings.find((one) => one.bookingId === bookingId);
  const refused = (errors: Readonly<Record<string, string>>, asks: readonly string[] = []): BookingFormState => ({ errors, asks, typed });
  if (bookingId && (!standing || String(standing.number) !== typed.number || standing.state !== 'booked')) return refused({ form: STALE });
  const day = readDay(typed.day ?? '');
  const days = day.kind === 'read' ? [day.value] : [];
  const counts = await bookedOn(therapist, days, bookingId || null);
  const read = readBooking(typed, { today, diary, onThatDay: (on) => counts.get(on) ?? 0 });
  if (read.kind === 'refused') return refused(read.errors);
  const rests = restsOn(record.phases, read.booking.day);
  if (rests) return refused({ day: rests });
  const asked = read.asks.join('\n');
  if (asked !== '' && !(typed.sure === 'yes' && asLines(typed.asked) === asked)) return refused({}, read.asks);
  const { booking } = read;
  if (standing && standing.day === booking.day && standing.time === booking.time && standing.what === booking.what)
    return refused({ form: 'Nothing is changed yet.' });
  return write(therapist, loaded, { typed, booking, bookingId: standing?.bookingId ?? null, reason: standing ? 'moved' : null });
}

/** Notes what became of a booked visit: missed, or cancelled and by whom; or that it is booked after all. */
export async function changeBookingAction(_before: BookingFormState, form: FormData): Promise<BookingFormState> {
  const therapist = await requireActing('lead', 'therapist');
  const typed = postedText(form);
  const { patientId = '', submissionId = '', bookingId = '' } = typed;
  if (await isSubmitted(therapist, submissionId)) redirect(bookingsOf(patientId));
  const loaded = await loadPatient(therapist, patientId);
  const refused = (errors: Readonly<Record<string, string>>): BookingFormState => ({ errors, asks: [], typed });
  const standing = loaded.record.bookings.find((one) => one.bookingId === bookingId);
  if (!standing || String(standing.number) !== typed.number) return refused({ form: STALE });
  const state = BOOKING_STATES.find((one) => one === typed.state);
  if (!state || state === standing.state) return refused({ state: 'Choose what became of it.' });
  if (state === 'missed' && standing.day > loaded.today) return refused({ state: 'Its day has not come yet. Move or cancel it.' });
  if (loaded.record.visits.some(({ day }) => day === standing.day))
    return refused({ state: 'Something was measured on that day: it was kept.' });
  const rests = state === 'booked' ? restsOn(loaded.record.phases, standing.day) : undefined;
  if (rests) return refused({ state: rests });
  const reason = (typed.reason ?? '').trim();
  if (reason.length > LONGEST_REASON) return refused({ reason: `Too long: ${LONGEST_REASON} characters at most.` });
  const { day, time, what } = standing;
  return write(therapist, loaded, { typed, booking: { day, time, what, state }, bookingId, reason: reason || state });
}

function bookingsOf(patientId: string): string {
  return `/patients/${patientId}/bookings`;
}

/** Lines as they were shown: a form posts them ended by carriage return and line feed. */
function asLines(text = ''): string {
  return text.replaceAll('\r\n', '\n');
}

type Writing = {
  readonly typed: Readonly<Record<string, string>>;
  readonly booking: Booking;
  readonly bookingId: string | null;
  readonly reason: string | null;
};

async function write(therapist: Therapist, { record, today }: LoadedPatient, writing: Writing): Promise<BookingFormState> {
  const { typed, booking, bookingId, reason } = writing;
  const { patientId } = record.head;
  const submissionId = typed.submissionId || crypto.randomUUID();
  const saved = await saveNoted(therapist, patientId, {
    submissionId,
    ...{ kind: 'booking', thing: bookingId ?? submissionId, expected: bookingId ? Number(typed.number) : 0, day: booking.day },
    ...{ content: booking, deed: bookingId ? 'booking changed' : 'visit booked', reason },
  });
  if (saved.kind === 'conflict' || saved.kind === 'not-found') return { errors: { form: STALE }, asks: [], typed };
  await refreshPatient(therapist, patientId, today);
  redirect(bookingsOf(patientId));
}
