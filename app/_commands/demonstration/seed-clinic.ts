import type { Therapist } from '@/db/therapist';
import { refreshStale } from '@/db/worklist/refresh-work';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { demoClinic } from './demo-clinic';
import { seedAnswers } from './seed-answers';
import { seedCautions } from './seed-cautions';
import { seedNoted } from './seed-noted';
import { seedPatient } from './seed-patient';

/** Writes every made-up person of a day into a lead's clinic, with what is noted of them, the cautions asked and the prompts answered, and looks at each for that day; gives how many. */
export async function seedClinic(lead: Therapist, today: CalendarDay): Promise<number> {
  const { patients } = demoClinic(today);
  for (const patient of patients) {
    const patientId = await seedPatient(lead, patient);
    await seedNoted(lead, patientId, patient, today);
    await seedCautions(lead, patientId, patient);
    await seedAnswers(lead, patientId, patient, today);
  }
  await refreshStale(lead, today);
  return patients.length;
}
