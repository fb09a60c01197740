import { StaticMarkup } from '@/app/_markup/static-markup';
import { ColumnHeads } from '@/app/_shell/column-heads';
import type { KeptOrder } from '@/db/patients/read-orders';
import type { KeptPiece } from '@/db/patients/read-pieces';
import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import type { AnalysedPiece } from '@/lib/analysis/analyse-piece';
import { pieceStage } from '@/lib/garments/piece-stage';
import { daysWorn } from '@/lib/garments/wear';
import { limbInWords } from '@/lib/ladder/limb';
import { orderStage } from '@/lib/orders/order-steps';
import { isNoAnswer } from '@/lib/outcome';
import { coverInWords } from '@/lib/prompts/show-figures';
import type { Piece } from '@/lib/record/patient-record';
import { type CalendarDay, showDay } from '@/lib/units/calendar-day';
import styles from './patient.module.css';

/** Every piece, the newest first: what it covers, what it was cut from, how long it has been worn and what is next. */
export function PiecesPanel({
  analysis,
  orders,
  patientId,
  mayAdd,
}: {
  analysis: PatientAnalysis;
  orders: readonly KeptOrder[];
  patientId: string;
  /** Orders and pieces may be added: for who writes, until the course has ended. */
  mayAdd: boolean;
}) {
  const pieces = [...analysis.pieces].reverse();
  return (
    <section className="panel" aria-labelledby="pieces-head">
      <div className="panel-head">
        <h2 id="pieces-head">Pieces</h2>
        {mayAdd && (
          <span className={styles.panelLinks}>
            <a href={`/patients/${patientId}/orders/new`} data-soft="">
              New order
            </a>
            <a href={`/patients/${patientId}/pieces/new`} data-soft="">
              Add a piece
            </a>
          </span>
        )}
      </div>
      <OrderLines orders={orders} pieces={analysis.record.pieces} patientId={patientId} />
      {pieces.length === 0 ? (
        <p className="secondary">No pieces yet. A piece is one garment; two of the same order are two pieces.</p>
      ) : (
        <div className="table-frame">
          <StaticMarkup as="table" className={styles.piecesTable}>
            <thead>
              <tr>
                <ColumnHeads of={['Piece', 'Covers', 'Made to measurements of', 'First worn', 'First fit', 'Now']} />
              </tr>
            </thead>
            <tbody>
              {pieces.map((one) => (
                <PieceRow key={one.piece.piece} one={one} patientId={patientId} today={analysis.today} />
              ))}
            </tbody>
          </StaticMarkup>
        </div>
      )}
    </section>
  );
}

/** Orders that are not done: proposed, or with a piece still to come. */
function OrderLines({ orders, pieces, patientId }: { orders: readonly KeptOrder[]; pieces: readonly Piece[]; patientId: string }) {
  const open = orders.flatMap((order) => {
    const stage = orderStage(
      order,
      pieces.filter((one) => one.orderId === order.orderId),
    );
    return stage === 'proposed' || stage === 'ordered' || stage === 'partly delivered' ? [{ order, stage }] : [];
  });
  if (open.length === 0) return null;
  return (
    <ul className="plain-list">
      {open.map(({ order, stage }) => (
        <li key={order.orderId}>
          <a href={`/patients/${patientId}/orders/${order.orderId}`} data-soft="">
            {`Order ${order.order}, ${limbInWords(order.limb, order.side)}, ${stage}`}
          </a>
          {order.expected && `, expected ${showDay(order.expected)}`}
        </li>
      ))}
    </ul>
  );
}

function PieceRow({ one, patientId, today }: { one: AnalysedPiece; patientId: string; today: CalendarDay }) {
  const piece = one.piece as KeptPiece;
  return (
    <tr className={one.inUse ? undefined : styles.retired}>
      <th scope="row">
        <a href={`/patients/${patientId}/pieces/${piece.pieceId}`} aria-label={`Piece ${piece.piece}`} data-soft="">
          {piece.piece}
        </a>
      </th>
      <td className={styles.cover}>{`${limbInWords(piece.limb, piece.side)}, ${coverInWords(piece.covers)}`}</td>
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
  const stage = pieceStage(piece, today);
  if (stage === 'out of use')
    return `out of use since ${piece.retired ? showDay(piece.retired) : ''}${piece.retiredReason ? `, ${piece.retiredReason}` : ''}`;
  const worn = daysWorn(piece, today);
  if (!isNoAnswer(worn)) return `${stage}, day ${worn} of ${piece.lifeDays}`;
  return stage === 'on order' && piece.expected ? `on order, expected ${showDay(piece.expected)}` : `${stage}, not worn yet`;
}
