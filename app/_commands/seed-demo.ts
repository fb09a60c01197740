import { hashPassword } from 'better-auth/crypto';
import { demoClinic } from '@/app/_demo/demo-clinic';
import type { DemoPatient } from '@/app/_demo/demo-patient';
import { closeDatabase } from '@/db/client';
import { addPatient } from '@/db/patients';
import { openClinic } from '@/db/people';
import { savePiece } from '@/db/pieces';
import { type Therapist, therapistWithId } from '@/db/therapist';
import { saveVisit } from '@/db/visits';
import { type CalendarDay, calendarDay } from '@/lib/units/calendar-day';

/** Fills an empty database with the made-up clinic and one lead, whose sign-in comes from DEMO_EMAIL and DEMO_PASSWORD. */
async function seed(today: CalendarDay): Promise<number> {
  const { clinic, patients } = demoClinic(today);
  const passwordHash = await hashPassword(process.env.DEMO_PASSWORD ?? '');
  const added = await openClinic(clinic, { email: process.env.DEMO_EMAIL ?? '', name: 'R. Adeyemi', role: 'lead', passwordHash });
  const lead = added.kind === 'added' ? await therapistWithId(added.id) : undefined;
  if (!lead) throw new Error('The made-up clinic is there already.');
  for (const patient of patients) await seedPatient(lead, patient);
  return patients.length;
}

async function seedPatient(lead: Therapist, { details, visits, pieces }: DemoPatient): Promise<void> {
  const written = (day: CalendarDay | undefined) => new Date(`${day ?? '2026-01-01'}T15:00:00Z`);
  const entry = { submissionId: crypto.randomUUID(), details };
  const added = await addPatient(lead, entry, written(visits[0]?.day));
  if (added.kind !== 'saved') throw new Error(`${details.reference} is there twice.`);
  const { patientId } = added;
  const visitOf = new Map<CalendarDay, string>();
  for (const visit of visits) {
    const saved = await saveVisit(lead, { patientId, submissionId: crypto.randomUUID(), visit }, written(visit.day));
    if (saved.kind === 'saved') visitOf.set(visit.day, saved.visitId);
  }
  for (const one of pieces) {
    const piece = { ...one, cutFromVisitId: visitOf.get(one.cutFrom) ?? null };
    await savePiece(lead, { patientId, submissionId: crypto.randomUUID(), piece }, written(one.cutFrom));
  }
}

const count = await seed(calendarDay(process.env.DEMO_DAY ?? new Date().toISOString().slice(0, 10)));
await closeDatabase();
process.stdout.write(`The made-up clinic has ${count} ${count === 1 ? 'patient' : 'patients'}.\n`);
