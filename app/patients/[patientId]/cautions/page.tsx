import type { Metadata } from 'next';
import { CARD_ANSWER_WORDS } from '@/app/_cautions/card-answer-words';
import type { ShownCard } from '@/app/_cautions/card-box';
import { CautionForm } from '@/app/_cautions/caution-form';
import { CautionHistory } from '@/app/_cautions/caution-history';
import { BackToPatient } from '@/app/_patient/back-to-patient';
import { loadPatient } from '@/app/_patient/load-patient';
import { PatientTitle } from '@/app/_patient/patient-title';
import { requireTherapist } from '@/app/_session/therapist';
import { cautionHistory } from '@/db/cautions';
import { ARTERIAL_SUPPLY } from '@/lib/cautions/arterial-supply';
import { CARD_ENDING, type CautionAbout } from '@/lib/cautions/caution-card';
import { type CardState, cardStates, cautionLine } from '@/lib/cautions/caution-cards';
import { showDay } from '@/lib/units/calendar-day';
import { capital } from '@/lib/units/capital';

export const metadata: Metadata = { title: 'Cautions' };

/** A patient's caution cards: those that stand, those to be asked for the newest visit, and everything answered so far. */
export default async function CautionsPage({ params }: { params: Promise<{ patientId: string }> }) {
  const { patientId } = await params;
  const therapist = await requireTherapist(`/patients/${patientId}/cautions`);
  const { record, analysis, clinic, today } = await loadPatient(therapist, patientId);
  const about = { record, policy: analysis.policy, today };
  const states = cardStates(about);
  const history = await cautionHistory(therapist, patientId);
  const newest = record.visits.at(-1);
  const asked = newest ? `asked for the visit of ${showDay(newest.day)}` : 'asked for the intake';
  return (
    <main id="main">
      <PatientTitle record={record} today={today} saying={`Cautions, ${asked}`}>
        <BackToPatient patientId={patientId} />
      </PatientTitle>
      <p className="caution-line">{cautionLine(states)}</p>
      <CautionForm
        submissionId={crypto.randomUUID()}
        key={history.length}
        patientId={patientId}
        cards={states.map((state) => shownCard(state, about))}
        mayWrite={therapist.role !== 'read-only'}
        today={today}
      />
      <CautionHistory history={history} timeZone={clinic.timeZone} />
      <p className="protocol-line">{CARD_ENDING}</p>
    </main>
  );
}

function shownCard({ card, reasons, answer, present, toAsk }: CardState, about: CautionAbout): ShownCard {
  const last = answer
    ? `Last answered ${CARD_ANSWER_WORDS[answer.answer].toLowerCase()} on ${showDay(answer.day)}${answer.byName ? ` by ${answer.byName}` : ''}${answer.words ? `: ${answer.words}` : ''}.`
    : 'Not asked yet.';
  const { id, title, ifPresent, source, kind } = card;
  const why = reasons.join('; ');
  const index = card === ARTERIAL_SUPPLY;
  return {
    id,
    title,
    question: card.question(about),
    ifPresent,
    reasons: `${capital(why)}.`,
    source,
    kind,
    last,
    present,
    toAsk,
    eachVisit: card.asked === 'each visit',
    index,
  };
}
