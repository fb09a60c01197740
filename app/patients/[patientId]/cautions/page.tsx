import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { cautionAbout } from '@/app/_cautions/caution-about';
import { CautionForm } from '@/app/_cautions/caution-form';
import { CautionHistory } from '@/app/_cautions/caution-history';
import styles from '@/app/_cautions/cautions.module.css';
import { shownCard } from '@/app/_cautions/shown-card';
import { StopBanner } from '@/app/_cautions/stop-banner';
import { BackToPatient } from '@/app/_patient/back-to-patient';
import { PatientTitle } from '@/app/_patient/patient-title';
import { loadPatient } from '@/app/_record/load-patient';
import { cautionHistory } from '@/db/patients/cautions';
import { CARD_ENDING } from '@/lib/cautions/caution-card';
import { type CardState, cardStates, cautionLine } from '@/lib/cautions/caution-cards';
import { showDay } from '@/lib/units/calendar-day';

export const metadata: Metadata = { title: 'Cautions' };

/** A patient's caution cards: those that stand, those to be asked for the newest visit, and everything answered so far. */
export default async function CautionsPage({ params }: { params: Promise<{ patientId: string }> }) {
  const { patientId } = await params;
  const therapist = await requireTherapist(`/patients/${patientId}/cautions`);
  const { record, analysis, clinic, today } = await loadPatient(therapist, patientId);
  const about = cautionAbout(analysis);
  const states = cardStates(about);
  const cards = states.map((state) => shownCard(state, about));
  const history = await cautionHistory(therapist, patientId);
  const newest = record.visits.at(-1);
  const asked = newest ? `asked for the visit of ${showDay(newest.day)}` : 'asked for the intake';
  return (
    <main id="main">
      <PatientTitle record={record} today={today} saying={`Cautions, ${asked}`}>
        <BackToPatient patientId={patientId} />
      </PatientTitle>
      <StopBanner cards={cards} />
      <p className={styles.cautionLine}>{cautionLine(states)}</p>
      <CautionForm
        submissionId={crypto.randomUUID()}
        key={history.length}
        patientId={patientId}
        cards={cards}
        next={nextToLapse(states)}
        mayWrite={therapist.role !== 'read-only'}
        today={today}
      />
      <CautionHistory history={history} timeZone={clinic.timeZone} about={about} />
      <p className="protocol-line">{CARD_ENDING}</p>
    </main>
  );
}

/** Which “no” lapses next, and on which day. */
function nextToLapse(states: readonly CardState[]): string {
  const counting = states.filter(({ standing, dueOn }) => standing === 'answered' && dueOn !== null);
  const [first] = [...counting].sort((one, other) => (one.dueOn ?? '').localeCompare(other.dueOn ?? ''));
  return first?.dueOn ? `Next lapses ${showDay(first.dueOn)}: ${first.card.title}` : '';
}
