import { eq } from 'drizzle-orm';
import { z } from 'zod';
import { CLINIC_BOUNDS, type ClinicDetails } from '@/lib/record/clinic-details';
import type { Statement } from '../audit/statement';
import { clinic } from '../schema/schema';
import type { Therapist } from '../therapist';
import { clinicOf, settingsOf, writeSetting } from './clinic';

/** Key of the clinic setting that keeps every state of the clinic's own details. */
export const DETAILS_KEY = 'clinic';

const FIRST_SET_UP = z.object({
  zero: z.string().max(60),
  direction: z.enum(['up', 'down']),
  interval: z.string().max(CLINIC_BOUNDS.interval),
  unit: z.enum(['in', 'cm']).optional(),
});

const PLACE = z.object({
  address: z.array(z.string().max(CLINIC_BOUNDS.line)).max(CLINIC_BOUNDS.lines),
  phone: z.string().max(CLINIC_BOUNDS.phone).nullable(),
  emergency: z.string().max(CLINIC_BOUNDS.phone).optional(),
  setUp: z.partialRecord(z.enum(['leg', 'arm']), FIRST_SET_UP).optional(),
  posture: z.string().max(CLINIC_BOUNDS.posture).optional(),
});

/** The clinic's details as they stand: name, units and zone, and where pieces are delivered once that was written. */
export async function clinicDetailsOf(therapist: Therapist): Promise<ClinicDetails> {
  const { name, subtitle, lengthUnit, massUnit, timeZone } = await clinicOf(therapist);
  const set = (await settingsOf(therapist)).get(DETAILS_KEY);
  return { name, subtitle, lengthUnit, massUnit, timeZone, ...(set ? PLACE.parse(set.value) : { address: [], phone: null }) };
}

/** Changes the clinic's details; every earlier state stays, and what was taped keeps the unit it was typed in. `stale` as `changeSetting` has it. */
export async function changeClinicDetails(
  therapist: Therapist,
  change: { readonly details: ClinicDetails; readonly reason: string | null; readonly after?: number },
  at = new Date(),
): Promise<'saved' | 'stale'> {
  const { details, ...rest } = change;
  const { name, subtitle, lengthUnit, massUnit, timeZone } = details;
  const own = { name, subtitle, lengthUnit, massUnit, timeZone };
  const update: Statement = (tx) => tx.update(clinic).set(own).where(eq(clinic.id, therapist.clinicId)).returning({ id: clinic.id });
  return writeSetting(therapist, { key: DETAILS_KEY, value: details, ...rest }, [update], at);
}
