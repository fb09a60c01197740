import { recordOf } from '@/db/patients/records';
import type { Therapist } from '@/db/therapist';
import { answerPrompt, asAsked } from '@/db/worklist/prompt-answers';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { patientWork } from '@/lib/schedule/patient-work';
import type { CalendarDay } from '@/lib/units/calendar-day';
import type { DemoPatient } from './demo-patient';

/** Writes what was answered to the prompts of one made-up person, as those prompts stand today. */
export async function seedAnswers(lead: Therapist, patientId: string, { answers }: DemoPatient, today: CalendarDay): Promise<void> {
  const record = await recordOf(lead, patientId);
  if (!record || answers.length === 0) return;
  const reviewed = { ...record, diagnosisGroup: record.head.diagnosisGroup };
  const { open } = patientWork(reviewed, { answers: [], moves: [] }, DEFAULT_POLICY, today);
  for (const { action, answer, reason, day, until } of answers)
    for (const prompt of open.filter((one) => one.action === action))
      await answerPrompt(lead, patientId, { ...asAsked(prompt), answer, until, reason }, new Date(`${day}T16:00:00Z`));
}
