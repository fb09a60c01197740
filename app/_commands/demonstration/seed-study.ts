import { addPerson } from '@/db/people/people';
import { beginStudy, saveStudyRun } from '@/db/service/studies';
import { type Therapist, therapistWithId } from '@/db/therapist';
import { studyOrder } from '@/lib/study/study-order';
import type { StudyPlan } from '@/lib/study/study-plan';
import { STUDY_KINDS } from '@/lib/study/study-plan';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { clinicDay } from './demo-patient';
import { storyLength, typedLength } from './hand';
import { seededRandom } from './seeded-random';

/** How the made-up three tape: reading in cm, tension from taping to taping and from hand to hand, placing in cm. */
const READING_CM = 0.15;
const TENSION = 0.004;
const HANDS = [0, 0.008, -0.005];
const PLACING_CM = 0.3;

/** Writes a measurer study that is finished: five legs by the lead and two more, twice, twelve days before a day. */
export async function seedStudy(lead: Therapist, today: CalendarDay): Promise<void> {
  const people = [lead];
  for (const name of ['K. Doan', 'M. Trevino']) {
    const email = `${name.toLowerCase().replace('. ', '.')}@harbour-lane.example`;
    const added = await addPerson(lead.clinicId, { name, email, role: 'therapist', passwordHash: 'no hash: nobody signs in with it' });
    const person = added.kind === 'added' ? await therapistWithId(added.id) : undefined;
    if (person) people.push(person);
  }
  const plan: StudyPlan = {
    limbs: ['P1', 'P2', 'P3', 'P4', 'P5'].map((person) => ({ person, limb: STUDY_KINDS['left-leg'].limb, side: 'left' })),
    measurers: people.map(({ id, name }) => ({ id, name })),
    ...{ repeats: 2, unit: 'in', seed: 181126 },
    heights: Array.from({ length: 10 }, (_, rung) => storyLength(`${3 + 1.5 * rung} in`)),
  };
  const at = new Date(`${clinicDay(today, 12)}T10:00:00Z`);
  const { studyId } = await beginStudy(lead, crypto.randomUUID(), plan, at);
  const random = seededRandom('measurer study');
  const sizes = plan.limbs.map(() => 1 + 0.08 * random.normal());
  for (const [measurer, who] of people.entries())
    for (const turn of studyOrder(plan, measurer)) {
      const tension = 1 + (HANDS[measurer] ?? 0) + TENSION * random.normal();
      const shift = PLACING_CM * random.normal();
      const girths = plan.heights.map(({ nm }) => {
        const girth = legCm(nm / 1e7 + shift) * (sizes[turn.limb] ?? 1) * tension + READING_CM * random.normal();
        return typedLength(girth, 'in', 'RA');
      });
      const entry = { submissionId: crypto.randomUUID(), turn, girths, expected: 0, reason: null };
      const saved = await saveStudyRun(who, studyId, entry, at);
      if (saved.kind !== 'saved') throw new Error(`a taping of the made-up study was not saved: ${saved.kind}`);
    }
}

/** A made-up lower leg by height above the floor, cm: narrow ankle, calf, knee. */
function legCm(height: number): number {
  return 22 + 0.22 * height + 5 * Math.sin((height - 8) / 7.5);
}
