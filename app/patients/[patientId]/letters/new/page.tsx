import type { Metadata } from 'next';
import { requireRole } from '@/app/_auth/therapist';
import styles from '@/app/_cautions/cautions.module.css';
import { LetterForm } from '@/app/_letter/letter-form';
import { LetterTable } from '@/app/_letter/letter-table';
import { loadLetter } from '@/app/_letter/load-letter';
import { PatientTitle } from '@/app/_patient/patient-title';
import { NO_FACTS } from '@/lib/record/work-facts';
import { letterDraft } from '@/lib/summary/letter/letter-draft';
import { letterEvidence } from '@/lib/summary/letter/letter-evidence';
import { letterGaps } from '@/lib/summary/letter/letter-gaps';
import { coverageSentences } from '@/lib/summary/letter/replacement-letter';
import { showDay } from '@/lib/units/calendar-day';

export const metadata: Metadata = { title: 'Replacement letter' };

/** The draft of a letter that asks for a replacement of one piece: prefilled from the record, edited, shown, then signed. */
export default async function NewLetterPage({
  params,
  searchParams,
}: {
  params: Promise<{ patientId: string }>;
  searchParams: Promise<{ piece?: string }>;
}) {
  const { patientId } = await params;
  const { piece: pieceId = '' } = await searchParams;
  const therapist = await requireRole('lead', 'therapist');
  const { record, facts, piece, today, doubt } = await loadLetter(therapist, patientId, pieceId);
  const evidence = letterEvidence(facts, null);
  const gaps = letterGaps(facts);
  const { prescriber, referralDay, cause, injured } = record.facts ?? NO_FACTS;
  const start = {
    ...letterDraft(facts),
    payer: facts.coverage?.rule.payer ?? '',
    signer: therapist.name,
    prescriber: prescriber ?? '',
    orderDay: referralDay ?? '',
    onset: [...(cause ? [cause] : []), ...(injured ? [showDay(injured)] : [])].join(', '),
  };
  return (
    <main id="main">
      <PatientTitle record={record} today={today} saying={`Replacement letter for piece ${piece.piece}`}>
        <a className="button" href={`/patients/${patientId}/pieces/${pieceId}`} data-soft="">
          Back to the piece
        </a>
      </PatientTitle>
      {gaps.length > 0 && <p className="secondary">{`For you, not for the letter. Not on record: ${gaps.join('; ')}.`}</p>}
      {doubt && <p className={`${styles.cautionLine} ${styles.standing}`}>{`For you, not for the letter: ${doubt}`}</p>}
      <LetterForm
        patientId={patientId}
        pieceId={pieceId}
        submissionId={crypto.randomUUID()}
        start={start}
        evidence={
          <>
            <p>{evidence.sentences.join(' ')}</p>
            <p className="hint">
              Errors and the sentence on measurement error stand in the letter only for a change in condition or an outgrown piece.
            </p>
            {evidence.tables.map((table) => (
              <LetterTable key={table.caption} table={table} />
            ))}
          </>
        }
        coverage={<p>{coverageSentences(facts, null).join(' ')}</p>}
      />
      <p className="protocol-line">Nothing leaves before you sign. Follow your local protocol and the prescriber.</p>
    </main>
  );
}
