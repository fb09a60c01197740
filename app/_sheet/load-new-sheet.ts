import 'server-only';
import { timeIn, todayIn } from '@/app/_auth/today';
import { deviceKey } from '@/app/_draft/device-key';
import { clinicDetailsOf } from '@/db/clinic/clinic-details';
import { ownPartsOf } from '@/db/clinic/own-parts';
import { policyOf } from '@/db/clinic/policy';
import { discardDraft, draftOf } from '@/db/patients/drafts';
import { recordOf } from '@/db/patients/records';
import { visitOfSubmission } from '@/db/patients/visits';
import type { Therapist } from '@/db/therapist';
import type { SheetData } from '@/lib/entry/entry-data';
import type { LimbKind } from '@/lib/ladder/limb';
import { knownOwnMeasures } from '@/lib/parts/own-measure';
import { showDayOfYear } from '@/lib/units/calendar-day';
import { firstForm, metDraft, treatedLimb, whatIsKnown } from './read-sheet-data';

/** What is to be seen to before taping: how it was done last time. */
export type Reminders = { readonly limb: LimbKind; readonly last: { readonly posture: string | null; readonly zero: string } | undefined };

/** The sheet of a new visit as somebody opens it; `saved` where its draft was saved as a visit already; undefined for no patient of this clinic. */
export async function loadNewSheet(
  therapist: Therapist,
  patientId: string,
): Promise<
  | { readonly kind: 'sheet'; readonly data: SheetData; readonly reminders: Reminders }
  | { readonly kind: 'saved'; readonly visitId: string }
  | undefined
> {
  const record = await recordOf(therapist, patientId);
  if (!record) return undefined;
  const clinic = await clinicDetailsOf(therapist);
  const today = todayIn(clinic.timeZone);
  const now = { day: today, time: timeIn(clinic.timeZone), who: therapist.name };
  const draft = metDraft(await draftOf(therapist, patientId, 'visit'), clinic.timeZone);
  const visitId = draft && (await visitOfSubmission(therapist, draft.content.submissionId));
  if (visitId) {
    await discardDraft(therapist, patientId, 'visit');
    return { kind: 'saved', visitId };
  }
  const before = record.visits.findLast((visit) => visit.ladders.length > 0);
  const data: SheetData = {
    patientId,
    timeZone: clinic.timeZone,
    name: record.head.name ?? record.reference,
    reference: record.reference,
    title: 'new visit',
    draftKind: 'visit',
    draftVersion: draft?.version ?? 0,
    draftAt: draft?.at ?? null,
    submissionId: draft?.content.submissionId ?? crypto.randomUUID(),
    form: draft?.content.form ?? firstForm(record, clinic, now),
    ...whatIsKnown(record, await policyOf(therapist), today, today),
    setUpFrom: [
      before
        ? `Set-up carried over from ${showDayOfYear(before.day)}.`
        : clinic.setUp?.[treatedLimb(record)]
          ? 'First visit: set up as the clinic measures; look at it above.'
          : 'First visit: say above where zero is, which way and how far apart. A lead can set it for the clinic.',
      'Every measured figure is typed new.',
    ],
    who: therapist.name,
    ownMeasures: knownOwnMeasures((await ownPartsOf(therapist)).measures, record.visits),
    openedId: crypto.randomUUID(),
    device: deviceKey(therapist, patientId, 'visit'),
  };
  const reminders = {
    limb: data.form.sheets[0]?.limb ?? 'leg',
    last: before && { posture: before.posture, zero: before.ladders[0]?.zero ?? '' },
  };
  return { kind: 'sheet', data, reminders };
}
