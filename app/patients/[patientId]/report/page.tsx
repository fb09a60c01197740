import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import styles from '@/app/_letter/letter.module.css';
import { BackToPatient } from '@/app/_patient/back-to-patient';
import { PatientTitle } from '@/app/_patient/patient-title';
import { loadPatient } from '@/app/_record/load-patient';
import { ReportSheet } from '@/app/_report/report-sheet';
import { PrintButton } from '@/app/_shell/print-button';

export const metadata: Metadata = { title: 'Progress report' };

/** The progress report for the prescriber, from the record as it stands today; to read and to print. */
export default async function ReportPage({ params }: { params: Promise<{ patientId: string }> }) {
  const { patientId } = await params;
  const therapist = await requireTherapist(`/patients/${patientId}/report`);
  const loaded = await loadPatient(therapist, patientId);
  return (
    <main id="main" className={styles.letterFrame}>
      <PatientTitle record={loaded.record} today={loaded.today} saying="Progress report for the prescriber">
        <PrintButton words="Print" />
        <BackToPatient patientId={patientId} />
      </PatientTitle>
      <ReportSheet loaded={loaded} />
    </main>
  );
}
