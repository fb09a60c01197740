import { answerPrompt } from '@/db/prompt-answers';
import { recordOf } from '@/db/records';
import type { Therapist } from '@/db/therapist';
import { inputsOf } from '@/lib/prompts/decide-prompts';
import { DEFAULT_POLICY } from '@/lib/record/policy';
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
    for (const prompt of open.filter((one) => one.action === action)) {
      const asked = {
        promptKey: prompt.cause,
        rule: prompt.rule,
        ruleVersion: String(prompt.ruleVersion),
        inputsHash: inputsOf(prompt),
        inputs: { title: prompt.title, facts: prompt.facts },
      };
      await answerPrompt(lead, patientId, { ...asked, answer, until, reason }, new Date(`${day}T16:00:00Z`));
    }
}
