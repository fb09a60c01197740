import type { Metadata } from 'next';
import { notFound, redirect } from 'next/navigation';
import { requireRole } from '@/app/_auth/therapist';
import { TapingReminders } from '@/app/_sheet/head/taping-reminders';
import { loadNewSheet } from '@/app/_sheet/load-new-sheet';
import styles from '@/app/_sheet/sheet.module.css';
import { ProtocolLine } from '@/app/_shell/protocol-line';
import { NewVisit } from './new-visit';

export const metadata: Metadata = { title: 'New visit' };

/** The ladder sheet of a new visit: the last set-up, the draft if there is one, and what the figures are compared with. */
export default async function NewVisitPage({ params }: { params: Promise<{ patientId: string }> }) {
  const { patientId } = await params;
  const loaded = await loadNewSheet(await requireRole('lead', 'therapist'), patientId);
  if (!loaded) notFound();
  if (loaded.kind === 'saved') redirect(`/patients/${patientId}/visits/${loaded.visitId}`);
  return (
    <main id="main" className={styles.sheetPage}>
      <NewVisit data={loaded.data}>
        <TapingReminders {...loaded.reminders} />
      </NewVisit>
      <ProtocolLine />
    </main>
  );
}
