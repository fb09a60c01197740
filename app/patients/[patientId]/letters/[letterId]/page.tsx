import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { requireTherapist } from '@/app/_auth/therapist';
import styles from '@/app/_letter/letter.module.css';
import { LetterSheet } from '@/app/_letter/letter-sheet';
import { BackToPatient } from '@/app/_patient/back-to-patient';
import { PatientTitle } from '@/app/_patient/patient-title';
import { loadPatient } from '@/app/_record/load-patient';
import { dayAndTime } from '@/app/_shell/day-and-time';
import { PrintButton } from '@/app/_shell/print-button';
import { letterOf } from '@/db/documents/letters';

export const metadata: Metadata = { title: 'Replacement letter' };

/** A replacement letter as it was signed: frozen, whatever is corrected on record afterwards. */
export default async function SignedLetterPage({ params }: { params: Promise<{ patientId: string; letterId: string }> }) {
  const { patientId, letterId } = await params;
  const therapist = await requireTherapist(`/patients/${patientId}/letters/${letterId}`);
  const { record, clinic, today } = await loadPatient(therapist, patientId);
  const signed = await letterOf(therapist, letterId);
  if (!signed || signed.patientId !== patientId) notFound();
  const clock = dayAndTime(clinic.timeZone);
  return (
    <main id="main" className={styles.letterFrame}>
      <PatientTitle
        record={record}
        today={today}
        saying={`Replacement letter, signed ${clock.format(signed.at)}${signed.byName ? ` by ${signed.byName}` : ''}`}
      >
        <PrintButton words="Print" />
        <BackToPatient patientId={patientId} />
      </PatientTitle>
      <LetterSheet letter={signed.letter} />
      <p className="protocol-line">This letter stays as it was signed. Follow your local protocol and the prescriber.</p>
    </main>
  );
}
