import { limbInWords, placeInWords } from '@/lib/ladder/limb';
import {
  conventionInWords,
  type OrderDifference,
  optionsInWords,
  orderDifference,
  pressureInWords,
  wornInWords,
} from '@/lib/orders/order-difference';
import { type BothUnits, type SheetRow, sheetRows, usualInterval } from '@/lib/orders/sheet-rows';
import { coverInWords } from '@/lib/prompts/show-figures';
import { garmentForm } from '@/lib/record/garment';
import type { Order } from '@/lib/record/order';
import { lengthAsTyped } from '@/lib/record/read-cut';
import { showDay } from '@/lib/units/calendar-day';
import { showLengthChange, showLengthWithUnit } from '@/lib/units/show-length';
import type { LoadedOrder } from './load-order';

/** The sheet a garment is made from: neutral words, both units, the figures as sent, and what differs from the last order. */
export function OrderSheet({ loaded }: { loaded: LoadedOrder }) {
  const { order, figures, record, clinic, before, since } = loaded;
  const differences = before ? orderDifference(before, { ...order, allowance: order.allowance.decided }) : [];
  return (
    <article className="order-sheet" aria-labelledby="sheet-head">
      <header className="order-sheet-head">
        <h2 id="sheet-head">{`Order ${order.order}: ${garmentForm(order.garment.form)?.words ?? order.garment.form}, ${limbInWords(order.limb, order.side)}`}</h2>
        <p>{`${clinic.name} · reference ${record.reference} · ${order.quantity} ${order.quantity === 1 ? 'piece' : 'pieces'}`}</p>
        <p className={order.sent ? '' : 'guess'}>{standing(order)}</p>
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
        <Figures figures={figures} rows={sheetRows(figures.ladder, since)} sinceDay={since?.earlier.visit.day ?? null} />
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
      ? `checked by ${order.checked.name} on ${order.checked.at.slice(0, 10)}`
      : 'sent unchecked';
  return `Sent ${showDay(order.ordered)}, ${checked}; expected ${order.expected ? showDay(order.expected) : 'on no given day'}. Figures frozen as sent.`;
}

function decidedInWords({ allowance }: Order): string {
  return allowance.decided ? `${lengthAsTyped(allowance.decided)} in total, stitched away until it is let out` : 'none';
}

function proposedInWords({ allowance }: Order, unit: 'in' | 'cm'): string {
  const { proposed } = allowance;
  if ('noAnswer' in proposed) return `not known: ${proposed.noAnswer}`;
  if (proposed.highMm === 0) return 'none is expected to be needed';
  return `${showLengthWithUnit(proposed.middleMm, unit)}, ${showLengthWithUnit(proposed.highMm, unit)} at the 90\u202f% estimate`;
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
}: {
  figures: NonNullable<LoadedOrder['figures']>;
  rows: readonly SheetRow[];
  sinceDay: string | null;
}) {
  const { ladder } = figures;
  const [own, other] = [ladder.unit, ladder.unit === 'in' ? 'cm' : 'in'];
  const interval = usualInterval(ladder);
  const beside = [
    figures.height && `height ${lengthAsTyped(figures.height)}`,
    figures.weight && `weight ${figures.weight.text} ${figures.weight.unit}`,
    ladder.floorToFold && `gluteal fold above the floor ${lengthAsTyped(ladder.floorToFold)}`,
    ...figures.readings.map((one) => `${one.name} ${lengthAsTyped(one.length)}`),
  ].filter(Boolean);
  return (
    <>
      <p>
        {`Taped ${showDay(figures.day)}${figures.measurer ? ` by ${figures.measurer}` : ''}, state ${figures.visitRevision} of the visit. Zero: ${placeInWords(ladder.zero)}, counting ${ladder.direction === 'up' ? 'towards' : 'away from'} the trunk${interval === null ? '' : `, every ${showLengthWithUnit(interval * (own === 'in' ? 25.4 : 10), own, 16)}`}.${beside.length > 0 ? ` Also: ${beside.join('; ')}.` : ''}`}
      </p>
      <div className="table-frame">
        <table className="order-figures">
          <caption>{`Girths as typed in ${own}, converted to ${other} beside${sinceDay ? '; change since the last order’s ladder at the same anatomy' : ''}.`}</caption>
          <thead>
            <tr>
              <th scope="col">{`From zero, ${own}`}</th>
              <th scope="col" className="figure">
                {other}
              </th>
              <th scope="col" className="figure">{`Girth, ${own}`}</th>
              <th scope="col" className="figure">
                {other}
              </th>
              {sinceDay && <th scope="col" className="figure">{`Change, ${own}`}</th>}
              <th scope="col">Landmark, interval</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <FigureRow key={row.distance.typed} row={row} compared={sinceDay !== null} />
            ))}
          </tbody>
        </table>
      </div>
    </>
  );
}

function FigureRow({ row, compared }: { row: SheetRow; compared: boolean }) {
  const { distance, girth, beforeMm } = row;
  const note = [
    row.landmark,
    row.oddInterval && row.intervalMm !== null && `odd interval ${showLengthWithUnit(row.intervalMm, distance.unit, 16)}`,
  ].filter(Boolean);
  return (
    <tr>
      <th scope="row">{distance.typed}</th>
      <td className="figure">{distance.other}</td>
      <td className="figure strong">{girth ? girth.typed : '–'}</td>
      <td className="figure">{girth ? girth.other : '–'}</td>
      {compared && <td className="figure">{girth && beforeMm !== null ? changeOf(girth, row) : '–'}</td>}
      <td>{note.join('; ')}</td>
    </tr>
  );
}

function changeOf(girth: BothUnits, row: SheetRow): string {
  return showLengthChange((row.girthMm ?? 0) - (row.beforeMm ?? 0), girth.unit);
}
