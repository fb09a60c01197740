import type { Metadata } from 'next';
import { notFound, redirect } from 'next/navigation';
import { requireRole } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { deviceKey } from '@/app/_draft/device-key';
import { TapingReminders } from '@/app/_sheet/head/taping-reminders';
import { clockIn, firstForm, metDraft, treatedLimb, whatIsKnown } from '@/app/_sheet/read-sheet-data';
import styles from '@/app/_sheet/sheet.module.css';
import { ProtocolLine } from '@/app/_shell/protocol-line';
import { clinicDetailsOf } from '@/db/clinic/clinic-details';
import { ownPartsOf } from '@/db/clinic/own-parts';
import { policyOf } from '@/db/clinic/policy';
import { discardDraft, draftOf } from '@/db/patients/drafts';
import { recordOf } from '@/db/patients/records';
import { visitOfSubmission } from '@/db/patients/visits';
import type { SheetData } from '@/lib/entry/entry-data';
import { knownOwnMeasures } from '@/lib/parts/own-measure';
import { showDayOfYear } from '@/lib/units/calendar-day';
import { NewVisit } from './new-visit';

export const metadata: Metadata = { title: 'New visit' };

/** The ladder sheet of a new visit: the last set-up, the draft if there is one, and what the figures are compared with. */
export default async function NewVisitPage({ params }: { params: Promise<{ patientId: string }> }) {
  const { patientId } = await params;
  const therapist = await requireRole('lead', 'therapist');
  const record = await recordOf(therapist, patientId);
  if (!record) notFound();
  const clinic = await clinicDetailsOf(therapist);
  const today = todayIn(clinic.timeZone);
  const now = { day: today, time: clockIn(clinic.timeZone, new Date()), who: therapist.name };
  const draft = metDraft(await draftOf(therapist, patientId, 'visit'), clinic.timeZone);
  const savedAlready = draft && (await visitOfSubmission(therapist, draft.content.submissionId));
  if (savedAlready) {
    await discardDraft(therapist, patientId, 'visit');
    redirect(`/patients/${patientId}/visits/${savedAlready}`);
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
  return (
    <main id="main" className={styles.sheetPage}>
      <NewVisit data={data}>
        <TapingReminders
          limb={data.form.sheets[0]?.limb ?? 'leg'}
          last={before && { posture: before.posture, zero: before.ladders[0]?.zero ?? '' }}
        />
      </NewVisit>
      <ProtocolLine />
    </main>
  );
}
