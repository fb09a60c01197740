import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { appAddress } from '@/app/_auth/app-address';
import { requireTherapist } from '@/app/_auth/therapist';
import styles from '@/app/_family/family.module.css';
import { FamilySheet } from '@/app/_family/family-sheet';
import { ShareLinks } from '@/app/_family/share-links';
import { BackToPatient } from '@/app/_patient/back-to-patient';
import { PatientTitle } from '@/app/_patient/patient-title';
import { loadPatient } from '@/app/_record/load-patient';
import { dayAndTime } from '@/app/_shell/day-and-time';
import { PrintButton } from '@/app/_shell/print-button';
import { familyPageOf } from '@/db/documents/family-pages';
import { LINK_DAYS, linksOf } from '@/db/documents/share-links';
import { deathIn } from '@/lib/course/phases';
import { showDay } from '@/lib/units/calendar-day';

export const metadata: Metadata = { title: 'Family page' };

/** A family page as it was approved, to print or to share by a link that can be withdrawn. `?large` prints it large. */
export default async function ApprovedFamilyPage({
  params,
  searchParams,
}: {
  params: Promise<{ patientId: string; documentId: string }>;
  searchParams: Promise<{ large?: string }>;
}) {
  const { patientId, documentId } = await params;
  const { large } = await searchParams;
  const therapist = await requireTherapist(`/patients/${patientId}/family/${documentId}`);
  const { record, clinic, today } = await loadPatient(therapist, patientId);
  const approved = await familyPageOf(therapist, documentId);
  if (!approved || approved.patientId !== patientId) notFound();
  const death = deathIn(record.phases);
  const clock = dayAndTime(clinic.timeZone);
  const links = (await linksOf(therapist, documentId)).map((link) => ({
    linkId: link.linkId,
    made: `${clock.format(link.at)}${link.byName ? ` by ${link.byName}` : ''}`,
    state: link.withdrawnAt
      ? `withdrawn ${clock.format(link.withdrawnAt)}`
      : link.expiresAt < new Date()
        ? `expired ${clock.format(link.expiresAt)}`
        : `open until ${clock.format(link.expiresAt)}`,
    open: !link.withdrawnAt && link.expiresAt >= new Date(),
    opened:
      link.openings.length === 0
        ? 'not opened yet'
        : `opened ${link.openings.length} ${link.openings.length === 1 ? 'time' : 'times'}, last ${clock.format(link.openings.at(-1))}`,
  }));
  return (
    <main id="main" className={large === undefined ? styles.familyPageFrame : `${styles.familyPageFrame} ${styles.largePrint}`}>
      <PatientTitle
        record={record}
        today={today}
        saying={`Family page, approved ${clock.format(approved.at)}${approved.byName ? ` by ${approved.byName}` : ''}`}
      >
        <PrintButton words="Print" />
        <a className="button" href={large === undefined ? '?large' : '?'} data-soft="">
          {large === undefined ? 'Large print' : 'Usual print'}
        </a>
        <BackToPatient patientId={patientId} />
      </PatientTitle>
      <FamilySheet page={approved.page} />
      <ShareLinks
        patientId={patientId}
        documentId={documentId}
        links={links}
        address={await appAddress()}
        days={LINK_DAYS}
        mayShare={therapist.role !== 'read-only' && !death}
        stopped={death ? `Died on ${showDay(death.from)}: every link answers nothing.` : null}
      />
      <p className="protocol-line">This page stays as it was approved. Follow your local protocol and the prescriber.</p>
    </main>
  );
}
