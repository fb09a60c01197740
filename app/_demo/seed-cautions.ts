import { answerCautions } from '@/db/cautions';
import { recordOf } from '@/db/records';
import type { Therapist } from '@/db/therapist';
import { ARTERIAL_SUPPLY } from '@/lib/cautions/arterial-supply';
import { cardStates } from '@/lib/cautions/caution-cards';
import { readCautionForm } from '@/lib/cautions/read-caution-form';
import { DEFAULT_POLICY } from '@/lib/record/policy';
import type { DemoPatient } from './demo-patient';

/** Answers every caution card of one made-up person with "no" at the newest visit, the blood supply with its index; nothing where none was asked. */
export async function seedCautions(lead: Therapist, patientId: string, { cautionsAsked }: DemoPatient): Promise<void> {
  const record = await recordOf(lead, patientId);
  const visit = record?.visits.at(-1);
  if (!record || !visit || !cautionsAsked) return;
  const about = { record, policy: DEFAULT_POLICY, today: visit.day };
  const states = cardStates(about);
  const typed = {
    ...Object.fromEntries(states.filter(({ toAsk }) => toAsk).map(({ card }) => [card.id, 'absent'])),
    [`${ARTERIAL_SUPPLY.id}/abpi`]: '1.02',
    [`${ARTERIAL_SUPPLY.id}/abpiDay`]: visit.day,
  };
  const read = readCautionForm(typed, states, about);
  if ('errors' in read) throw new Error(`Cautions of the demonstration: ${Object.values(read.errors).join(' ')}`);
  const given = { visitId: visit.visitId, day: visit.day, answers: read.answers, submissionId: crypto.randomUUID() };
  await answerCautions(lead, patientId, given, new Date(`${visit.day}T15:30:00Z`));
}
