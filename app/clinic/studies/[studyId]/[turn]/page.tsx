import type { Metadata } from 'next';
import { notFound, redirect } from 'next/navigation';
import { requireRole } from '@/app/_auth/therapist';
import { ClinicTitle } from '@/app/clinic/clinic-title';
import { studyOf, studyStatesFor } from '@/db/service/studies';
import { studyDraftOf } from '@/db/service/study-drafts';
import { studyOrder } from '@/lib/study/study-order';
import { studyLimbInWords, turnName } from '@/lib/study/study-plan';
import { showLength } from '@/lib/units/show-length';
import { readTurn } from '../../turns';
import { TurnForm } from './turn-form';

export const metadata: Metadata = { title: 'A taping of the study' };

/** One taping, typed without sight of any other; or, of a whole study, its correction. */
export default async function TurnPage({ params }: { params: Promise<{ studyId: string; turn: string }> }) {
  const therapist = await requireRole('lead', 'therapist');
  const { studyId, turn: named } = await params;
  const [study, turn] = [await studyOf(therapist, studyId), readTurn(named)];
  const limb = turn && study?.plan.limbs[turn.limb];
  if (!study || !turn || !limb || study.plan.measurers[turn.measurer]?.id !== therapist.id || turn.repeat >= study.plan.repeats) notFound();
  if (study.ended) redirect(`/clinic/studies/${studyId}`);
  const { plan, typed, isWhole } = study;
  const isTyped = typed.has(turnName(turn));
  const states = isTyped && isWhole ? (await studyStatesFor(therapist, studyId)).get(turnName(turn)) : undefined;
  const place = studyOrder(plan, turn.measurer).findIndex((one) => turnName(one) === turnName(turn)) + 1;
  const texts = states?.at(-1)?.run.girths.map(({ text }) => text) ?? (await studyDraftOf(therapist, studyId, turn)) ?? [];
  return (
    <main id="main">
      <ClinicTitle title={studyLimbInWords(limb)}>
        <p className="secondary">
          {`Your taping ${place} of ${plan.limbs.length * plan.repeats}, in the order drawn. ${states ? 'A correction: both states are kept.' : 'Nothing typed before is shown, and nothing is compared.'}`}
        </p>
      </ClinicTitle>
      {isTyped && !states ? (
        <p>This taping is typed. It can be looked at and corrected once the study is whole.</p>
      ) : (
        <TurnForm
          key={turnName(turn)}
          studyId={studyId}
          turn={turnName(turn)}
          unit={plan.unit}
          places={plan.heights.map(({ nm }) => showLength(nm / 1e6, plan.unit, 16))}
          side={limb.side}
          limb={limb.limb}
          texts={plan.heights.map((_, rung) => texts[rung] ?? '')}
          expected={states?.length ?? 0}
          submissionId={crypto.randomUUID()}
        />
      )}
    </main>
  );
}
