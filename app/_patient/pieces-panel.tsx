import Link from 'next/link';
import type { KeptPiece } from '@/db/read-pieces';
import type { AnalysedPiece, PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { daysWorn } from '@/lib/garments/wear';
import { isNoAnswer } from '@/lib/outcome';
import { coverInWords } from '@/lib/prompts/show-figures';
import { type CalendarDay, showDay } from '@/lib/units/calendar-day';

/** Every piece, the newest first: what it covers, what it was cut from, how long it has been worn and what is next. */
export function PiecesPanel({ analysis, patientId, mayWrite }: { analysis: PatientAnalysis; patientId: string; mayWrite: boolean }) {
  const pieces = [...analysis.pieces].reverse();
  return (
    <section className="panel" aria-labelledby="pieces-head">
      <div className="panel-head">
        <h2 id="pieces-head">Pieces</h2>
        {mayWrite && (
          <Link href={`/patients/${patientId}/pieces/new`} prefetch={false}>
            Add a piece
          </Link>
        )}
      </div>
      {pieces.length === 0 ? (
        <p className="secondary">No pieces yet. A piece is one garment; two of the same order are two pieces.</p>
      ) : (
        <div className="table-frame">
          <table>
            <thead>
              <tr>
                <th scope="col">Piece</th>
                <th scope="col">Covers</th>
                <th scope="col">Cut from</th>
                <th scope="col">First worn</th>
                <th scope="col">First fit</th>
                <th scope="col">Now</th>
              </tr>
            </thead>
            <tbody>
              {pieces.map((one) => (
                <PieceRow key={one.piece.piece} one={one} patientId={patientId} today={analysis.today} />
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}

function PieceRow({ one, patientId, today }: { one: AnalysedPiece; patientId: string; today: CalendarDay }) {
  const piece = one.piece as KeptPiece;
  return (
    <tr className={one.inUse ? '' : 'retired'}>
      <th scope="row">
        <Link href={`/patients/${patientId}/pieces/${piece.pieceId}`} prefetch={false} aria-label={`Piece ${piece.piece}`}>
          {piece.piece}
        </Link>
      </th>
      <td>{`${piece.side} ${piece.limb}, ${coverInWords(piece.covers)}`}</td>
      <td>{showDay(piece.cutFrom)}</td>
      <td>{piece.firstWorn ? showDay(piece.firstWorn) : 'not yet'}</td>
      <td>
        {piece.firstFit ? `checked ${showDay(piece.firstFit)}` : piece.firstWorn ? <span className="guess">◇ not recorded</span> : '–'}
      </td>
      <td>{nowOf(one, today)}</td>
    </tr>
  );
}

function nowOf(one: AnalysedPiece, today: CalendarDay): string {
  const piece = one.piece as KeptPiece;
  if (!one.inUse) return `retired ${piece.retired ? showDay(piece.retired) : ''}${piece.retiredReason ? `, ${piece.retiredReason}` : ''}`;
  const worn = daysWorn(piece, today);
  return isNoAnswer(worn) ? worn.noAnswer.toLowerCase().replace('.', '') : `worn, day ${worn} of ${piece.lifeDays}`;
}
