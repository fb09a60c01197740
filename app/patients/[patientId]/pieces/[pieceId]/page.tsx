import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { requireTherapist } from '@/app/_auth/therapist';
import { cautionAbout } from '@/app/_cautions/caution-about';
import { heldPiece, holdOn } from '@/app/_cautions/read-hand-over';
import { BackToPatient } from '@/app/_patient/back-to-patient';
import { PatientTitle } from '@/app/_patient/patient-title';
import { pictureOf } from '@/app/_picture/limb-picture';
import { cutLadders, cutMeasures, ladderChoices } from '@/app/_piece/cut-ladders';
import { CalledStep, DeliveredStep, FirstFitStep, WornStep } from '@/app/_piece/first-steps';
import { FitThenTable } from '@/app/_piece/fit-then';
import { AlteredStep, KeepStep, LetOutStep, ReleaseStep, RetireStep } from '@/app/_piece/later-steps';
import { PieceForm } from '@/app/_piece/piece-form';
import { PieceHistory } from '@/app/_piece/piece-history';
import { PieceLife, roomLeft } from '@/app/_piece/piece-life';
import { loadPatient } from '@/app/_record/load-patient';
import { MeasureFitTable } from '@/app/_result/measure-fit-table';
import { PieceResult } from '@/app/_result/piece-result';
import { ProtocolLine } from '@/app/_shell/protocol-line';
import { ordersOf } from '@/db/patients/read-orders';
import { pieceWithHistory } from '@/db/patients/read-pieces';
import { peopleOf } from '@/db/people/people';
import { fitHistory } from '@/lib/analysis/fit-history';
import { cutKey } from '@/lib/forms/read-cut';
import { pieceFormOf } from '@/lib/forms/read-piece-form';
import { zonesOf } from '@/lib/forms/read-piece-step';
import { keptAs, pieceStage } from '@/lib/garments/piece-stage';
import { wearInStart } from '@/lib/garments/wear-in-start';
import { limbInWords } from '@/lib/ladder/limb';
import { againstRelease } from '@/lib/orders/against-release';
import { coverInWords } from '@/lib/prompts/show-figures';
import { bandInWords } from '@/lib/prompts/wear-in-words';
import { addDays } from '@/lib/units/calendar-day';

export const metadata: Metadata = { title: 'Piece' };

/** One piece: what stands on record, the next steps of its life, every earlier state, and the form for a correction. */
export default async function PiecePage({ params }: { params: Promise<{ patientId: string; pieceId: string }> }) {
  const { patientId, pieceId } = await params;
  const therapist = await requireTherapist(`/patients/${patientId}/pieces/${pieceId}`);
  const { record, analysis, clinic, today } = await loadPatient(therapist, patientId);
  const piece = record.pieces.find((one) => one.pieceId === pieceId);
  const history = await pieceWithHistory(therapist, pieceId);
  if (!piece || !history) notFound();
  const orders = await ordersOf(therapist, patientId);
  const names = new Map((await peopleOf(therapist)).map((one) => [one.id, one.name]));
  const byMeasures = piece.covers === 'measures';
  const ladders = byMeasures ? cutMeasures(record) : cutLadders(record);
  const stage = pieceStage(piece, today);
  const { policy } = analysis;
  const one = analysis.pieces.find((other) => other.piece.piece === piece.piece);
  const [about, held] = [cautionAbout(analysis), heldPiece(piece)];
  const step = { patientId, pieceId, revision: piece.revision, submissionId: crypto.randomUUID(), today };
  const wearIn = wearInStart(piece, policy, record.pieces, record.diagnosisGroup.endsWith('scar'));
  const unfitted = piece.firstFit === null && !['held back', 'on order', 'sent back', 'out of use'].includes(stage);
  const callOpen = piece.wearIn !== null && piece.wearIn.called === null;
  const left = roomLeft(piece);
  const inUse = stage === 'wear-in' || stage === 'in rotation' || stage === 'spare';
  return (
    <main id="main">
      <PatientTitle
        record={record}
        today={today}
        saying={`Piece ${piece.piece}, ${limbInWords(piece.limb, piece.side)}, ${coverInWords(piece.covers)}: ${stage}`}
      >
        {inUse && !byMeasures && (
          <a className="button" href={`/patients/${patientId}/pieces/${pieceId}/what-if`} data-soft="">
            What if
          </a>
        )}
        {therapist.role !== 'read-only' && (
          <a className="button" href={`/patients/${patientId}/letters/new?piece=${pieceId}`} data-soft="">
            Replacement letter
          </a>
        )}
        <BackToPatient patientId={patientId} />
      </PatientTitle>
      <div className="halves">
        <PieceLife piece={piece} all={record.pieces} order={orders.find((one) => one.orderId === piece.orderId)} today={today} />
        {therapist.role !== 'read-only' && stage !== 'out of use' && (
          <div className="stack no-print">
            {stage === 'held back' && (
              <ReleaseStep {...step} against={againstRelease(piece, record, policy, today)} expected={addDays(today, piece.leadDays)} />
            )}
            {(stage === 'on order' || stage === 'sent back') && <DeliveredStep {...step} hold={holdOn(about, held, false)} />}
            {unfitted && (
              <FirstFitStep
                {...step}
                hold={holdOn(about, held, true)}
                zones={zonesOf(piece)}
                wearIn={wearIn}
                worn={piece.firstWorn !== null}
              />
            )}
            {stage === 'delivered' && !unfitted && <WornStep {...step} hold={holdOn(about, held, true)} wearIn={wearIn} />}
            {inUse && callOpen && <CalledStep {...step} />}
            {inUse && left && <LetOutStep {...step} left={left} />}
            <details className="as-table">
              <summary>Turn, alteration, out of use</summary>
              <div className="stack">
                {inUse && <KeepStep {...step} now={keptAs(piece, today) === 'spare' ? 'spare' : 'rotation'} />}
                <AlteredStep {...step} />
                <RetireStep {...step} />
              </div>
            </details>
          </div>
        )}
      </div>
      {one && inUse && <PieceResult one={one} alike={[one]} analysis={analysis} picture={pictureOf(analysis, piece)} />}
      {one && <FitThenTable fits={fitHistory(analysis, one)} band={bandInWords(one.band)} />}
      <MeasureFitTable piece={piece} analysis={analysis} />
      <PieceHistory revisions={history.revisions} names={names} today={today} timeZone={clinic.timeZone} />
      {therapist.role !== 'read-only' && (
        <details className="as-table no-print">
          <summary>Correct what stands on record</summary>
          <PieceForm
            patientId={patientId}
            pieceId={pieceId}
            revision={piece.revision}
            submissionId={crypto.randomUUID()}
            start={pieceFormOf(piece, cutKey(piece.cutFromVisitId, piece, byMeasures))}
            ladders={ladderChoices(ladders)}
            today={today}
          />
        </details>
      )}
      <ProtocolLine />
    </main>
  );
}
