import type { Metadata } from 'next';
import Link from 'next/link';
import { requireTherapist } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { WaitingOrders } from '@/app/_order/waiting-orders';
import { ProtocolLine } from '@/app/_shell/protocol-line';
import { clinicOf } from '@/db/clinic/clinic';
import { headsOf } from '@/db/patients/find-patients';
import { openOrders } from '@/db/patients/read-orders';
import { piecesInUse } from '@/db/patients/read-pieces';
import { limbInWords } from '@/lib/ladder/limb';
import { addDays, showDay } from '@/lib/units/calendar-day';

export const metadata: Metadata = { title: 'Pieces' };

const MOST = 200;

/** Orders that are not done, and every piece of the clinic that is not retired: whose, where, cut from which ladder, and when its life ends. */
export default async function PiecesPage() {
  const therapist = await requireTherapist('/pieces');
  const [pieces, orders, clinic] = await Promise.all([piecesInUse(therapist, MOST), openOrders(therapist, MOST), clinicOf(therapist)]);
  const owners = await headsOf(therapist, [...new Set([...pieces, ...orders].map((one) => one.patientId))]);
  const ownerOf = new Map(owners.map((owner) => [owner.patientId, owner]));
  return (
    <main id="main">
      <div className="title-row">
        <div>
          <h1>Pieces</h1>
          <p className="secondary">{sentence(pieces.length)}</p>
        </div>
      </div>
      <h2 className="section-head">Orders</h2>
      <WaitingOrders orders={orders} ownerOf={ownerOf} today={todayIn(clinic.timeZone)} />
      <h2 className="section-head">Pieces in use or on the way</h2>
      {pieces.length === 0 ? (
        <p className="nothing-yet">A piece is added on its patient’s page, from the measurements it is made to.</p>
      ) : (
        <table className="worklist">
          <thead>
            <tr>
              <th scope="col">Patient</th>
              <th scope="col">Piece</th>
              <th scope="col">Made to measurements of</th>
              <th scope="col">Worn since</th>
              <th scope="col">Replacement due</th>
            </tr>
          </thead>
          <tbody>
            {pieces.map((piece) => (
              <tr key={piece.pieceId}>
                <th scope="row">
                  <Link className="quiet-link" href={`/patients/${piece.patientId}`} prefetch={false}>
                    {ownerOf.get(piece.patientId)?.name ?? ownerOf.get(piece.patientId)?.reference}
                  </Link>
                </th>
                <td>
                  {limbInWords(piece.limb, piece.side)}
                  <span className="second-line">piece {piece.piece}</span>
                </td>
                <td data-word="made to the measurements of">{showDay(piece.cutFrom)}</td>
                <td data-word={piece.firstWorn ? 'worn since' : undefined}>
                  {piece.firstWorn ? showDay(piece.firstWorn) : <span className="secondary">not worn yet</span>}
                </td>
                <td className="whole-row" data-word="life ends">
                  {piece.firstWorn && showDay(addDays(piece.firstWorn, piece.lifeDays))}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <ProtocolLine />
    </main>
  );
}

function sentence(count: number): string {
  if (count === MOST) return `The ${MOST} pieces cut longest ago are shown.`;
  return count === 1 ? '1 piece is in use or on the way.' : `${count} pieces are in use or on the way.`;
}
