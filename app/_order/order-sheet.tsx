import type { Side } from '@/lib/ladder/limb';
import { limbInWords, placeInWords } from '@/lib/ladder/limb';
import { tapedLine } from '@/lib/ladder/taped-line';
import {
  conventionInWords,
  type OrderDifference,
  optionsInWords,
  orderDifference,
  pressureInWords,
  wornInWords,
} from '@/lib/orders/order-difference';
import { type SheetRow, sheetRows, usualInterval } from '@/lib/orders/sheet-rows';
import { roomSizes } from '@/lib/prompts/outlook-in-words';
import { coverInWords } from '@/lib/prompts/show-figures';
import { garmentForm } from '@/lib/record/garment';
import type { Order, SentFigures } from '@/lib/record/order';
import { lengthAsTyped } from '@/lib/record/read-cut';
import { calendarDay, showDay } from '@/lib/units/calendar-day';
import type { LengthUnit } from '@/lib/units/length';
import { nameOf } from '@/lib/units/read-length';
import { showLength, showLengthWithUnit } from '@/lib/units/show-length';
import type { LoadedOrder } from './load-order';
import { type DrawnRung, OrderOutline, outlineInWords } from './order-outline';

/** The sheet a garment is made from: neutral words, both units, the figures as sent, and what differs from the last order. */
export function OrderSheet({ loaded }: { loaded: LoadedOrder }) {
  const { order, figures, record, clinic, before, since } = loaded;
  const { proposed } = order.allowance;
  const rows = figures ? sheetRows(figures.ladder, since, 'places' in proposed ? proposed.places : []) : [];
  const differences = before ? orderDifference(before, { ...order, allowance: order.allowance.decided }) : [];
  return (
    <article className="order-sheet" aria-labelledby="sheet-head">
      <header className="order-sheet-head">
        <div>
          <h2 id="sheet-head">{`Order ${order.order}: ${garmentForm(order.garment.form)?.words ?? order.garment.form}`}</h2>
          <p>{`${clinic.name} · reference ${record.reference} · ${order.quantity} ${order.quantity === 1 ? 'piece' : 'pieces'}`}</p>
          <p className={order.sent ? '' : 'guess'}>{standing(order)}</p>
        </div>
        <p className="side-frame">
          <strong>{limbInWords(order.limb, order.side)}</strong>
          {figures && <span>{figures.ladder.unit === 'in' ? 'inches' : 'centimetres'}</span>}
        </p>
      </header>
      <div className="order-halves">
        <dl className="order-facts">
          <Fact what="Covers">{coverInWords(order.covers)}</Fact>
          <Fact what="Worn">{wornInWords(order.garment)}</Fact>
          <Fact what="Reduction">{`${order.reductionPct}\u202f%, ${conventionInWords(order.convention)}`}</Fact>
          <Fact what="Class">{pressureInWords(order.garment)}</Fact>
          <Fact what="Options">{optionsInWords(order.garment)}</Fact>
          <Fact what="Room to let out, decided">{decidedInWords(order)}</Fact>
          <Fact what="Room proposed">{proposedInWords(order, figures?.ladder.unit ?? 'cm')}</Fact>
          <Fact what="Expected life, making">{`${order.lifeDays} days from first wear, ${order.leadDays} days to make and deliver`}</Fact>
          <Fact what="Reason">{order.reasonCode}</Fact>
          {order.note && <Fact what="Note">{order.note}</Fact>}
        </dl>
        <Differences differences={differences} before={before?.piece} />
      </div>
      {figures ? (
        <>
          <p>{taping(figures)}</p>
          <Figures figures={figures} rows={rows} sinceDay={since?.earlier.visit.day ?? null} side={order.side} />
          <ReadBack order={order} rows={rows} />
        </>
      ) : (
        <p className="guess">The visit this order is cut from no longer has a ladder of this limb.</p>
      )}
    </article>
  );
}

function standing(order: Order): string {
  if (!order.sent || !order.ordered)
    return order.state === 'cancelled'
      ? 'Cancelled before it was sent.'
      : 'Not sent yet: the figures below are those of the visit as it stands.';
  const checked =
    order.checked && order.checked !== 'unchecked'
      ? `checked by ${order.checked.name} on ${showDay(calendarDay(order.checked.at.slice(0, 10)))}`
      : 'unchecked';
  return `Sent ${showDay(order.ordered)}, ${checked}; expected ${order.expected ? showDay(order.expected) : 'on no given day'}. Figures frozen as sent.`;
}

function decidedInWords({ allowance }: Order): string {
  return allowance.decided ? `${lengthAsTyped(allowance.decided)} in total, stitched away until it is let out` : 'none';
}

function proposedInWords({ allowance }: Order, unit: 'in' | 'cm'): string {
  const { proposed } = allowance;
  if ('noAnswer' in proposed) return `not known: ${proposed.noAnswer}`;
  if (proposed.highMm === 0) return 'none is expected to be needed';
  return roomSizes(proposed, unit);
}

function Fact({ what, children }: { what: string; children: string }) {
  return (
    <div>
      <dt>{what}</dt>
      <dd>{children}</dd>
    </div>
  );
}

function Differences({ differences, before }: { differences: readonly OrderDifference[]; before: string | undefined }) {
  if (before === undefined) return <p className="secondary">First order of this limb: there is nothing to compare it with.</p>;
  if (differences.length === 0) return <p className="secondary">{`As piece ${before} in everything but the girths.`}</p>;
  return (
    <div className="table-frame">
      <table>
        <caption>{`What differs from piece ${before}`}</caption>
        <thead>
          <tr>
            <th scope="col">What</th>
            <th scope="col">{`Piece ${before}`}</th>
            <th scope="col">This order</th>
          </tr>
        </thead>
        <tbody>
          {differences.map((one) => (
            <tr key={one.what}>
              <th scope="row">{one.what}</th>
              <td>{one.before}</td>
              <td>{one.now}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Figures({
  figures,
  rows,
  sinceDay,
  side,
}: {
  figures: SentFigures;
  rows: readonly SheetRow[];
  sinceDay: string | null;
  side: Side;
}) {
  const { ladder } = figures;
  const own = ladder.unit;
  const other: LengthUnit = own === 'in' ? 'cm' : 'in';
  const upward = ladder.direction === 'up' ? [...rows].reverse() : rows;
  const withRoom = rows.some((row) => row.roomMm !== null);
  const { landmarks } = tapedLine(ladder);
  const rungs = upward.flatMap(({ girthMm, placeMm, beforeMm, roomMm }, row): DrawnRung[] =>
    girthMm === null ? [] : [{ placeMm, girthMm, row, beforeMm, roomMm }],
  );
  return (
    <>
      <div className="order-ladder scroll-across">
        <OrderOutline side={side} rungs={rungs} landmarksMm={[...landmarks.values()]} rows={upward.length} />
        <table className="order-figures">
          <caption>{`Towards the trunk at the top. Places from zero and girths in ${nameOf(own)} as typed, beside them in ${nameOf(other)}.${sinceDay ? ' Last: the last order’s ladder at the same anatomy.' : ''}${withRoom ? ' Room: middle estimate of the relaxed width to let out.' : ''}`}</caption>
          <thead>
            <tr>
              <th scope="col" className="figure">{`Place, ${own}`}</th>
              <th scope="col" className="figure">{`Girth, ${own}`}</th>
              <th scope="col" className="figure">{`Place, ${other}`}</th>
              <th scope="col" className="figure">{`Girth, ${other}`}</th>
              {sinceDay && <th scope="col" className="figure">{`Last, ${own}`}</th>}
              {withRoom && <th scope="col" className="figure">{`Room, ${own}`}</th>}
              <th scope="col">Read back</th>
              <th scope="col">Landmark, interval</th>
            </tr>
          </thead>
          <tbody>
            {upward.map((row) => (
              <FigureRow key={row.distance.typed} row={row} compared={sinceDay !== null} withRoom={withRoom} />
            ))}
          </tbody>
        </table>
      </div>
      <p className="secondary outline-words">{outlineInWords(rungs)}</p>
    </>
  );
}

/** When, by whom and how the ladder was taped, and what was measured beside it. */
function taping({ day, measurer, visitRevision, ladder, height, weight, readings }: SentFigures): string {
  const interval = usualInterval(ladder);
  const beside = [
    height && `height ${lengthAsTyped(height)}`,
    weight && `weight ${weight.text} ${weight.unit}`,
    ladder.floorToFold && `gluteal fold above the floor ${lengthAsTyped(ladder.floorToFold)}`,
    ...readings.map((one) => `${one.name} ${lengthAsTyped(one.length)}`),
  ].filter(Boolean);
  const every = interval === null ? '' : `, every ${showLengthWithUnit(interval * (ladder.unit === 'in' ? 25.4 : 10), ladder.unit, 16)}`;
  const way = ladder.direction === 'up' ? 'towards' : 'away from';
  return `Taped ${showDay(day)}${measurer ? ` by ${measurer}` : ''}, state ${visitRevision} of the visit. Zero: ${placeInWords(ladder.zero)}, counting ${way} the trunk${every}.${beside.length > 0 ? ` Also: ${beside.join('; ')}.` : ''}`;
}

function FigureRow({ row, compared, withRoom }: { row: SheetRow; compared: boolean; withRoom: boolean }) {
  const { distance, girth, beforeMm, roomMm } = row;
  const odd = row.oddInterval && row.intervalMm !== null && `odd interval ${showLengthWithUnit(row.intervalMm, distance.unit, 16)}`;
  return (
    <tr>
      <th scope="row" className="figure">
        {distance.typed}
      </th>
      <td className="figure sent-girth">{girth ? girth.typed : '–'}</td>
      <td className="figure">{distance.other}</td>
      <td className="figure">{girth ? girth.other : '–'}</td>
      {compared && <td className="figure">{beforeMm === null ? '–' : showLength(beforeMm, distance.unit)}</td>}
      {withRoom && <td className="figure">{roomMm === null ? '–' : showLength(roomMm, distance.unit)}</td>}
      <td>{girth && <span className="tick-box" aria-hidden="true" />}</td>
      <td>{[row.landmark, odd].filter(Boolean).join('; ')}</td>
    </tr>
  );
}

/** Boxes for whoever reads the sheet back aloud before it leaves. */
function ReadBack({ order, rows }: { order: Order; rows: readonly SheetRow[] }) {
  const girths = rows.filter((row) => row.girth).length;
  const unit = rows[0]?.distance.unit === 'in' ? 'inches' : 'centimetres';
  const checks = ['reference', limbInWords(order.limb, order.side), unit, 'zero and direction', `${girths} girths, no row skipped`];
  return (
    <div className="read-back-box print-only">
      <h3>Read back by a second person, aloud, before sending</h3>
      <ul className="tick-list">
        {checks.map((one) => (
          <li key={one}>
            <span className="tick-box" aria-hidden="true" /> {one}
          </li>
        ))}
      </ul>
      <div className="sign-lines">
        <span>read by</span>
        <span>heard by</span>
        <span>day</span>
      </div>
    </div>
  );
}
