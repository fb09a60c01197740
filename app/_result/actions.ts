'use server';

import { notFound, redirect } from 'next/navigation';
import { requireActing } from '@/app/_auth/therapist';
import { postedText } from '@/app/_form/posted';
import { loadPatient } from '@/app/_record/load-patient';
import { reviseVisit } from '@/db/patients/visits';
import { refreshPatient } from '@/db/worklist/refresh-work';
import type { ZeroChoice } from '@/lib/ladder/ladder';
import { isNoAnswer } from '@/lib/outcome';

/**
 * Keeps how a therapist reads a ladder whose zero looks moved: as recorded, or with the zero moved back. A new revision of the visit with
 * who and when; the figures stay as measured.
 */
export async function chooseZeroAction(form: FormData): Promise<void> {
  const therapist = await requireActing('lead', 'therapist');
  const { patientId = '', visitId = '', limb: asked = '', choice: chosen = '', revision = '', submissionId = '' } = postedText(form);
  const { record, analysis, today } = await loadPatient(therapist, patientId);
  const kept = record.visits.find((one) => one.visitId === visitId);
  const limb = analysis.limbs.find((one) => `${one.series.side} ${one.series.limb}` === asked);
  const found = limb?.visits.find((one) => one.at.visit === kept);
  const judged = [found?.sinceLast, found?.sinceBaseline].find((one) => one && !isNoAnswer(one) && one.change.shift?.finding);
  if (!kept || !limb || !judged || isNoAnswer(judged) || !judged.change.shift) notFound();
  const choice: ZeroChoice['choice'] = chosen === 'moved-back' ? 'moved-back' : 'as-recorded';
  const zeroChoice: ZeroChoice = { choice, shiftMm: judged.change.shift.mm, by: therapist.name, at: new Date().toISOString() };
  const ladders = kept.ladders.map((ladder) =>
    ladder.limb === limb.series.limb && ladder.side === limb.series.side ? { ...ladder, zeroChoice } : ladder,
  );
  const { visitId: _id, patientId: _of, revision: _number, author: _by, authorName: _name, at: _at, reason: _why, ...measured } = kept;
  const revised = await reviseVisit(therapist, visitId, Number(revision), {
    submissionId: submissionId || crypto.randomUUID(),
    visit: { ...measured, ladders },
    reason: choice === 'moved-back' ? 'zero read as moved, by the therapist’s choice' : 'zero kept as recorded, by the therapist’s choice',
  });
  if (revised.kind === 'not-found' || revised.kind === 'another-patient') notFound();
  await refreshPatient(therapist, patientId, today);
  redirect(`/patients/${patientId}/visits/${visitId}`);
}
