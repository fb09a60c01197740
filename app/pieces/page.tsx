import type { Metadata } from 'next';
import { requireTherapist } from '@/app/_auth/therapist';
import { todayIn } from '@/app/_auth/today';
import { WaitingOrders } from '@/app/_order/waiting-orders';
import { ColumnHeads } from '@/app/_shell/column-heads';
import { ProtocolLine } from '@/app/_shell/protocol-line';
import { clinicOf } from '@/db/clinic/clinic';
import { headsOf } from '@/db/patients/find-patients';
import { openOrders } from '@/db/patients/read-orders';
import { type ListedPiece, type PiecesWanted, piecesByOrderDay } from '@/db/patients/read-pieces';
import { answersOf, asKnown, type KeptAnswer } from '@/db/worklist/prompt-answers';
import { limbInWords } from '@/lib/ladder/limb';
import { restOfOrder } from '@/lib/schedule/rests-in-words';
import { addDays, type CalendarDay, daysBetween, showDay } from '@/lib/units/calendar-day';
import styles from './pieces.module.css';

export const metadata: Metadata = { title: 'Pieces' };

const MOST = 200;
const LONGEST_SEARCH = 100;
/** Days that count as soon. */
const SOON = 14;

const FILTERS = [
  { show: 'all', words: 'All' },
  { show: 'overdue', words: 'Overdue' },
  { show: 'soon', words: `Within ${SOON} days` },
  { show: 'to-come', words: 'Not worn yet' },
] as const;
type Show = (typeof FILTERS)[number]['show'];

type Asked = { searchParams: Promise<{ q?: string | string[]; show?: string | string[] }> };

/** Orders that are not done, and the pieces of the clinic that are not retired, by the day to order the next one by, overdue ones marked. */
export default async function PiecesPage({ searchParams }: Asked) {
  const therapist = await requireTherapist('/pieces');
  const query = await searchParams;
  const q = ([query.q ?? ''].flat()[0] ?? '').trim().slice(0, LONGEST_SEARCH);
  const show = FILTERS.find((one) => one.show === [query.show].flat()[0])?.show ?? 'all';
  const clinic = await clinicOf(therapist);
  const today = todayIn(clinic.timeZone);
  const [pieces, orders] = await Promise.all([piecesByOrderDay(therapist, wanted(show, q, today), MOST), openOrders(therapist, MOST)]);
  const late = pieces.filter((one) => isLate(one, today));
  const [owners, answers] = await Promise.all([
    headsOf(therapist, [...new Set([...pieces, ...orders].map((one) => one.patientId))]),
    answersOf(therapist, [...new Set(late.map((one) => one.patientId))]),
  ]);
  const rests = new Map(late.map((one) => [one.pieceId, restOf(one, answers, today)]));
  const ownerOf = new Map(owners.map((owner) => [owner.patientId, owner]));
  return (
    <main id="main">
      <div className="title-row">
        <div>
          <h1>Pieces</h1>
          <p className="secondary">{sentence(pieces, late.length, [...rests.values()].filter(Boolean).length)}</p>
        </div>
      </div>
      <h2 className="section-head">Orders</h2>
      <WaitingOrders orders={orders} ownerOf={ownerOf} today={today} />
      <h2 className="section-head">Pieces in use or on the way</h2>
      <form method="get" className={`${styles.filter} no-print`} aria-label="Pieces">
        <label>
          Name or reference
          <input name="q" type="search" defaultValue={q} maxLength={LONGEST_SEARCH} />
        </label>
        <label>
          Show
          <select name="show" defaultValue={show}>
            {FILTERS.map((one) => (
              <option key={one.show} value={one.show}>
                {one.words}
              </option>
            ))}
          </select>
        </label>
        <button type="submit" className="button">
          Find
        </button>
      </form>
      {pieces.length === 0 ? (
        <p className="nothing-yet">
          {q || show !== 'all'
            ? 'No piece is found so. Search looks in references and names.'
            : 'A piece is added on its patient’s page, from the measurements it is made to.'}
        </p>
      ) : (
        <table className="worklist">
          <thead>
            <tr>
              <ColumnHeads of={['Order by', 'Patient', 'Piece', 'Made to measurements of', 'Worn since', 'Replacement due']} />
            </tr>
          </thead>
          <tbody>
            {pieces.map((piece) => (
              <tr key={piece.pieceId}>
                <td data-word={piece.orderBy ? 'order by' : undefined}>
                  <OrderBy day={piece.orderBy} today={today} rest={rests.get(piece.pieceId)} />
                </td>
                <th scope="row">
                  <a className="quiet-link" href={`/patients/${piece.patientId}`} data-soft="">
                    {ownerOf.get(piece.patientId)?.name ?? ownerOf.get(piece.patientId)?.reference}
                  </a>
                </th>
                <td>
                  <a href={`/patients/${piece.patientId}/pieces/${piece.pieceId}`} data-soft="">
                    {limbInWords(piece.limb, piece.side)}
                  </a>
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

/** The day to order by, with how far it is over; another piece follows, or no end is in sight, where there is none. */
function OrderBy({ day, today, rest }: { day: CalendarDay | null; today: CalendarDay; rest: string | undefined }) {
  if (!day) return <span className="secondary">another follows, or no end is in sight</span>;
  const over = daysBetween(day, today);
  if (over <= 0) return showDay(day);
  return (
    <>
      <strong>{showDay(day)}</strong>
      <span className="second-line">{over === 1 ? 'overdue, one day' : `overdue, ${over} days`}</span>
      {rest && <span className={`second-line ${styles.rest}`}>{rest}</span>}
    </>
  );
}

function wanted(show: Show, words: string, today: CalendarDay): PiecesWanted {
  if (show === 'overdue') return { words, before: today };
  if (show === 'soon') return { words, from: today, before: addDays(today, SOON + 1) };
  return show === 'to-come' ? { words, toCome: true } : { words };
}

/** How many are shown, how many of them are overdue, and how many of those rest by an answer and are no line of Today. */
function sentence(pieces: readonly ListedPiece[], overdue: number, resting: number): string {
  const put = resting > 0 ? `, ${resting} of them put off or declined` : '';
  const late = overdue > 0 ? ` ${overdue} overdue${put}.` : '';
  if (pieces.length === MOST) return `The ${MOST} pieces to order for first are shown.${late}`;
  return pieces.length === 1 ? `1 piece is shown.${late}` : `${pieces.length} pieces are shown, by the day to order the next one.${late}`;
}

function isLate({ orderBy }: ListedPiece, today: CalendarDay): boolean {
  return orderBy !== null && orderBy < today;
}

/** What was answered to the order of a piece that is overdue, where that answer still holds. */
function restOf({ patientId, piece, orderBy }: ListedPiece, answers: readonly KeptAnswer[], today: CalendarDay): string | undefined {
  const own = answers.filter((answer) => answer.patientId === patientId).map(asKnown);
  return orderBy ? restOfOrder(own, piece, orderBy, today) : undefined;
}
