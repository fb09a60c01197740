import { answerCautions } from '@/db/patients/cautions';
import { recordOf } from '@/db/patients/records';
import type { Therapist } from '@/db/therapist';
import { isSupplyCard } from '@/lib/cautions/blood-supply-cards';
import type { CautionAbout } from '@/lib/cautions/caution-card';
import { cardStates } from '@/lib/cautions/caution-cards';
import { readCautionForm } from '@/lib/cautions/read-caution-form';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { ageInYears } from '@/lib/units/age';
import type { DemoPatient } from './demo-patient';
import { writtenAt } from './written-at';

/** Answers every caution card of one made-up person with "no" at the newest visit, the blood supply with its index; nothing where none was asked. */
export async function seedCautions(lead: Therapist, patientId: string, { cautionsAsked }: DemoPatient): Promise<void> {
  const record = await recordOf(lead, patientId);
  const visit = record?.visits.at(-1);
  if (!record || !visit || !cautionsAsked) return;
  const about = { record, policy: DEFAULT_POLICY, today: visit.day };
  const states = cardStates(about);
  const typed = Object.fromEntries(
    states
      .filter(({ toAsk }) => toAsk)
      .flatMap(({ card }) => [[card.id, 'absent'], ...(isSupplyCard(card.id) ? supply(card.id, visit.day, about) : [])]),
  );
  const read = readCautionForm(typed, states, about);
  if (read.kind === 'refused') throw new Error(`Cautions of the demonstration: ${Object.values(read.errors).join(' ')}`);
  const given = { visitId: visit.visitId, day: visit.day, answers: read.answers, submissionId: crypto.randomUUID() };
  await answerCautions(lead, patientId, given, writtenAt(visit.day, '15:30'));
}

/** A leg whose blood supply was looked at on the day: a grown person's by its index, a child's by pulses, colour, warmth and feeling. */
function supply(card: string, day: string, about: CautionAbout): (readonly [string, string])[] {
  const child = ageInYears(about.record.born, about.today) < about.policy.supplyIndexYears;
  const how = child ? { check: 'clinical check', clinical: 'good' } : { check: 'index', abpi: '1.02', device: 'manual', pressure: '32' };
  return Object.entries({ ...how, risk: 'none', abpiDay: day, by: 'R. Adeyemi' }).map(([box, text]) => [`${card}/${box}`, text]);
}
