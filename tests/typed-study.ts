import type { Therapist } from '@/db/therapist';
import { studyOrder } from '@/lib/study/study-order';
import { turnName } from '@/lib/study/study-plan';
import { asNanometres } from '@/lib/units/length';
import { madeUpPlan } from '@/tests/lib/study/made-up-plan';
import { normalFrom } from '@/tests/lib/study/normal-from';

/** A study by these people, every taping typed: girths of a leg with 2 mm of reading error; gives its id. */
export async function typedStudy(people: readonly [Therapist, Therapist]): Promise<string> {
  const { beginStudy, saveStudyRun } = await import('@/db/service/studies');
  const plan = { ...madeUpPlan(''), measurers: people.map(({ id, name }) => ({ id, name })) };
  const { studyId } = await beginStudy(people[0], crypto.randomUUID(), plan);
  const draw = normalFrom(5);
  for (const [measurer, who] of people.entries())
    for (const turn of studyOrder(plan, measurer)) {
      const girths = plan.heights.map(({ nm }, rung) => {
        const tenths = Math.round(230 + 10 * turn.limb + nm / 2e6 + 25 * Math.sin(rung) + 2 * draw());
        return { text: (tenths / 10).toFixed(1), unit: 'cm' as const, nm: asNanometres(tenths * 1e6) };
      });
      const saved = await saveStudyRun(who, studyId, { submissionId: crypto.randomUUID(), turn, girths, expected: 0, reason: null });
      if (saved.kind !== 'saved') throw new Error(`${turnName(turn)}: ${saved.kind}`);
    }
  return studyId;
}
