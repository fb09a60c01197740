import styles from '@/app/_letter/letter.module.css';
import type { KeptPiece } from '@/db/patients/read-pieces';
import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { formOf } from '@/lib/garment-forms/own-form';
import { pieceStage } from '@/lib/garments/piece-stage';
import { limbInWords } from '@/lib/ladder/limb';
import { outsideInWords } from '@/lib/prompts/outside-in-words';
import { coverInWords } from '@/lib/prompts/show-figures';
import { type CalendarDay, showDay } from '@/lib/units/calendar-day';

/** How many pieces the report lists, the newest; older ones are counted. */
const MOST = 10;
const HEADS = ['Piece', 'Limb and cover', 'Made to measurements of', 'Delivered', 'First fit', 'First worn', 'Now'];

/** Every piece with its stage and days, the newest first, and what lies outside its band. */
export function PiecesSection({ pieces, analysis }: { pieces: readonly KeptPiece[]; analysis: PatientAnalysis }) {
  const { today } = analysis;
  const outside = outsideInWords(analysis);
  const shown = [...pieces].reverse().slice(0, MOST);
  return (
    <section>
      <h3>Pieces</h3>
      {pieces.length === 0 ? (
        <p>No piece is on record.</p>
      ) : (
        <div className="table-frame">
          <table className={styles.letterTable}>
            <thead>
              <tr>
                {HEADS.map((head) => (
                  <th key={head} scope="col">
                    {head}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {shown.map((piece) => (
                <tr key={piece.pieceId}>
                  <th scope="row">{piece.piece}</th>
                  <td>
                    {`${limbInWords(piece.limb, piece.side)}, ${formOf(piece.garment)?.words ?? piece.garment?.form ?? coverInWords(piece.covers)}`}
                  </td>
                  <td>{showDay(piece.cutFrom)}</td>
                  <td>{dayOr(piece.delivered, 'not recorded')}</td>
                  <td>{piece.fit ? `${showDay(piece.fit.day)}, ${piece.fit.outcome}` : dayOr(piece.firstFit, 'not recorded')}</td>
                  <td>{dayOr(piece.firstWorn, 'not yet')}</td>
                  <td>{nowInWords(piece, today)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {outside.length > 0 && (
        <>
          <p>By the newest measurements, wear counted:</p>
          <ul>
            {outside.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </>
      )}
      {pieces.length > MOST && (
        <p>{`${pieces.length - MOST} older ${pieces.length === MOST + 1 ? 'piece is' : 'pieces are'} not listed.`}</p>
      )}
    </section>
  );
}

function dayOr(day: CalendarDay | null, otherwise: string): string {
  return day ? showDay(day) : otherwise;
}

function nowInWords(piece: KeptPiece, today: CalendarDay): string {
  const stage = pieceStage(piece, today);
  return stage === 'out of use' && piece.retired
    ? `out of use since ${showDay(piece.retired)}, ${piece.retiredReason ?? piece.retiredAs ?? 'reason not recorded'}`
    : stage;
}
