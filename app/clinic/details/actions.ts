'use server';

import { redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { changeClinicDetails, clinicDetailsOf } from '@/db/clinic/clinic-details';
import { readClinicDetails } from '@/lib/forms/read-clinic-details';
import { timeZones } from './time-zones';

/** What stops the form, beside its boxes, and everything as typed. */
export type ClinicDetailsState = {
  readonly errors: Readonly<Record<string, string>>;
  readonly typed: Readonly<Record<string, string>> | null;
};

const STALE =
  'Somebody else changed the details since the page was opened. Nothing was saved; what you typed stands here: open the page anew and compare.';
const LONGEST_REASON = 200;

/** Keeps what the clinic is called, where it is, and what it measures in. */
export async function saveClinicDetailsAction(_before: ClinicDetailsState, form: FormData): Promise<ClinicDetailsState> {
  const therapist = await requireActing('lead');
  const typed = postedText(form);
  const read = readClinicDetails(typed, timeZones((await clinicDetailsOf(therapist)).timeZone));
  const reason = (typed.reason ?? '').trim();
  if (read.kind === 'refused') return { errors: read.errors, typed };
  if (reason.length > LONGEST_REASON) return { errors: { reason: `Too long: ${LONGEST_REASON} characters at most.` }, typed };
  const change = { details: read.details, reason: reason || null, after: Number(typed.number) };
  if ((await changeClinicDetails(therapist, change)) === 'stale') return { errors: { form: STALE }, typed };
  redirect('/clinic/details?saved');
}
