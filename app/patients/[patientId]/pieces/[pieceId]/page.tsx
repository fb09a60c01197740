import type { Metadata } from 'next';
import { notFound } from 'next/navigation';
import { loadPatient } from '@/app/_patient/load-patient';
import { PatientTitle } from '@/app/_patient/patient-title';
import { cutLadders, ladderChoices } from '@/app/_piece/cut-ladders';
import { PieceForm } from '@/app/_piece/piece-form';
import { requireTherapist } from '@/app/_session/therapist';
import { pieceWithHistory } from '@/db/read-pieces';
import { coverInWords } from '@/lib/prompts/show-figures';
import { pieceFormOf } from '@/lib/record/read-piece-form';
import { showDay } from '@/lib/units/calendar-day';

export const metadata: Metadata = { title: 'Piece' };

/** One piece: what stands on record, every earlier state of it, and the form that adds the next. */
export default async function PiecePage({ params }: { params: Promise<{ patientId: string; pieceId: string }> }) {
  const { patientId, pieceId } = await params;
  const therapist = await requireTherapist(`/patients/${patientId}/pieces/${pieceId}`);
  const { record, today } = await loadPatient(therapist, patientId);
  const piece = record.pieces.find((one) => one.pieceId === pieceId);
  const history = await pieceWithHistory(therapist, pieceId);
  if (!piece || !history) notFound();
  const ladders = cutLadders(record);
  const key = `${piece.cutFromVisitId} ${piece.side} ${piece.limb}`;
  return (
    <main id="main">
      <PatientTitle
        record={record}
        today={today}
        saying={`Piece ${piece.piece}, ${piece.side} ${piece.limb}, ${coverInWords(piece.covers)}`}
      />
      {therapist.role !== 'read-only' && (
        <PieceForm
          patientId={patientId}
          pieceId={pieceId}
          revision={piece.revision}
          submissionId={crypto.randomUUID()}
          start={pieceFormOf(piece, key)}
          ladders={ladderChoices(ladders)}
          today={today}
        />
      )}
      <section aria-labelledby="history-head">
        <h2 id="history-head" className="section-head">
          History
        </h2>
        <div className="table-frame">
          <table>
            <thead>
              <tr>
                <th scope="col">State</th>
                <th scope="col">Written</th>
                <th scope="col">Why</th>
                <th scope="col">First worn</th>
                <th scope="col">First fit</th>
                <th scope="col">Out of use</th>
              </tr>
            </thead>
            <tbody>
              {[...history.revisions].reverse().map((one) => (
                <tr key={one.revision}>
                  <th scope="row">{one.revision}</th>
                  <td>{one.at.toISOString().slice(0, 16).replace('T', ' ')} UTC</td>
                  <td>{one.reason ?? 'added'}</td>
                  <td>{one.firstWorn ? showDay(one.firstWorn) : '–'}</td>
                  <td>{one.firstFit ? showDay(one.firstFit) : '–'}</td>
                  <td>{one.retired ? `${showDay(one.retired)}, ${one.retiredReason ?? ''}` : '–'}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      </section>
    </main>
  );
}
