import { hashPassword } from 'better-auth/crypto';
import { demoClinic, HARBOUR_LANE } from '@/app/_commands/demonstration/demo-clinic';
import { seedClinic } from '@/app/_commands/demonstration/seed-clinic';
import { seedHistory } from '@/app/_commands/demonstration/seed-history';
import { seedStudy } from '@/app/_commands/demonstration/seed-study';
import { closeDatabase } from '@/db/client';
import { changeClinicDetails } from '@/db/clinic/clinic-details';
import { openClinic } from '@/db/people/people';
import { therapistWithId } from '@/db/therapist';
import { type CalendarDay, calendarDay } from '@/lib/units/calendar-day';

/** Fills an empty database with the made-up clinic and one lead, whose sign-in comes from DEMO_EMAIL and DEMO_PASSWORD. */
async function seed(today: CalendarDay): Promise<number> {
  const { clinic } = demoClinic(today);
  const passwordHash = await hashPassword(process.env.DEMO_PASSWORD ?? '');
  const added = await openClinic(clinic, { email: process.env.DEMO_EMAIL ?? '', name: 'R. Adeyemi', role: 'lead', passwordHash });
  const lead = added.kind === 'added' ? await therapistWithId(added.id) : undefined;
  if (!lead) throw new Error('The made-up clinic is there already.');
  await changeClinicDetails(lead, { details: { ...clinic, ...HARBOUR_LANE }, reason: 'set up' });
  const named = await seedClinic(lead, today);
  await seedStudy(lead, today);
  return named + (await seedHistory(lead, today));
}

const count = await seed(calendarDay(process.env.DEMO_DAY ?? new Date().toISOString().slice(0, 10)));
await closeDatabase();
process.stdout.write(`The made-up clinic has ${count} ${count === 1 ? 'patient' : 'patients'}.\n`);
