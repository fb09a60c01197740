import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { requireRole } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { deviceKey } from '@/app/_draft/device-key';
import { knownBefore, metDraft } from '@/app/_sheet/read-sheet-data';
import styles from '@/app/_sheet/sheet.module.css';
import { ProtocolLine } from '@/app/_shell/protocol-line';
import { clinicOf } from '@/db/clinic/clinic';
import { ownPartsOf } from '@/db/clinic/own-parts';
import { policyOf } from '@/db/clinic/policy';
import { draftOf } from '@/db/patients/drafts';
import { visitWithHistory } from '@/db/patients/read-visits';
import { recordOf } from '@/db/patients/records';
import type { SheetData } from '@/lib/entry/entry-data';
import { knownOwnMeasures } from '@/lib/parts/own-measure';
import { showDay } from '@/lib/units/calendar-day';
import { formOfVisit } from '@/lib/visit-form/form-of-visit';
import { CorrectVisit } from './correct-visit';
import { EarlierStates } from './earlier-states';

export const metadata: Metadata = { title: 'Correct a visit' };

/** The sheet of a stored visit, filled with what is on record; earlier states with who and when stand below. */
export default async function CorrectVisitPage({ params }: { params: Promise<{ patientId: string; visitId: string }> }) {
  const { patientId, visitId } = await params;
  const therapist = await requireRole('lead', 'therapist');
  const record = await recordOf(therapist, patientId);
  const history = await visitWithHistory(therapist, visitId);
  if (!record || !history || history.current.patientId !== patientId) notFound();
  const clinic = await clinicOf(therapist);
  const { current, revisions } = history;
  const kind = `correction:${visitId}`;
  const draft = metDraft(await draftOf(therapist, patientId, kind), clinic.timeZone);
  const onRecord = formOfVisit(current, clinic);
  const data: SheetData = {
    patientId,
    timeZone: clinic.timeZone,
    name: record.head.name ?? record.reference,
    reference: record.reference,
    title: `correcting the visit of ${showDay(current.day)}`,
    draftKind: kind,
    draftVersion: draft?.version ?? 0,
    draftAt: draft?.at ?? null,
    submissionId: draft?.content.submissionId ?? crypto.randomUUID(),
    base: draft?.content.base ?? current.revision,
    form: draft?.content.form ?? onRecord,
    ...knownBefore(record, visitId, await policyOf(therapist), todayIn(clinic.timeZone)),
    setUpFrom: ['As on record.', 'Change what was wrong.'],
    who: therapist.name,
    ownMeasures: knownOwnMeasures((await ownPartsOf(therapist)).measures, record.visits),
    openedId: crypto.randomUUID(),
    device: deviceKey(therapist, patientId, kind),
  };
  return (
    <main id="main" className={styles.sheetPage}>
      <CorrectVisit data={data} visitId={visitId} />
      <EarlierStates revisions={revisions} clinic={clinic} />
      <ProtocolLine />
    </main>
  );
}
