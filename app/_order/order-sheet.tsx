import { lengthAsTyped } from '@/lib/forms/read-cut';
import type { Ladder } from '@/lib/ladder/ladder';
import { limbInWords, placeInWords } from '@/lib/ladder/limb';
import { conventionInWords, optionsInWords, orderDifference, pressureInWords, wornInWords } from '@/lib/orders/order-difference';
import { orderedInWords, sentLadders } from '@/lib/orders/order-set';
import { type SheetRow, sheetRows, usualInterval } from '@/lib/orders/printed-rows';
import { isNoAnswer } from '@/lib/outcome';
import { roomSizes } from '@/lib/prompts/outlook-in-words';
import { coverInWords } from '@/lib/prompts/show-figures';
import type { Order, ProposedRoom, SentFigures } from '@/lib/record/order';
import { formOf } from '@/lib/record/own-form';
import { calendarDay, showDay } from '@/lib/units/calendar-day';
import { capitalized } from '@/lib/units/capitalized';
import { showLengthWithUnit } from '@/lib/units/show-length';
import type { LoadedOrder } from './load-order';
import { OrderDifferences } from './order-differences';
import { OrderFigures } from './order-figures';
import { OrderMeasures } from './order-measures';
import styles from './order-sheet.module.css';

/** The sheet a garment is made from: neutral words, both units, the figures as sent, and what differs from the last order. */
export function OrderSheet({ loaded }: { loaded: LoadedOrder }) {
  const { order, figures, record, clinic, before, since } = loaded;
  const pages = (figures ? sentLadders(figures) : []).map((ladder, index) => {
    const change = since[index] ?? null;
    return { ladder, rows: sheetRows(ladder, change, roomAlong(order, ladder)), sinceDay: change?.earlier.visit.day ?? null };
  });
  const differences = before ? orderDifference(before, { ...order, allowance: order.allowance.decided }) : [];
  return (
    <article className={styles.orderSheet} aria-labelledby="sheet-head">
      <header className={styles.orderSheetHead}>
        <div>
          <h2 id="sheet-head">{`Order ${order.order}: ${formOf(order.garment)?.words ?? order.garment.form}`}</h2>
          <p>{`${clinic.name} · reference ${record.reference} · ${order.quantity} ${order.quantity === 1 ? 'piece' : 'pieces'}`}</p>
          <p className={order.sent ? undefined : 'guess'}>{standing(order)}</p>
        </div>
        <p className={styles.sideFrame}>
          <strong>{orderedInWords(order)}</strong>
          {figures && <span>{figures.ladder.unit === 'in' ? 'inches' : 'centimetres'}</span>}
        </p>
      </header>
      <div className={styles.orderHalves}>
        <dl className="fact-rows">
          <Fact what="Covers">{coverInWords(order.covers)}</Fact>
          <Fact what="Worn">{wornInWords(order.garment)}</Fact>
          <Fact what="Reduction">{`${order.reductionPct}\u202f%, ${conventionInWords(order.convention)}`}</Fact>
          <Fact what="Class">{pressureInWords(order.garment)}</Fact>
          <Fact what="Options">{optionsInWords(order.garment)}</Fact>
          <Fact what="Room to let out, decided">{decidedInWords(order)}</Fact>
          <Fact what="Room proposed">{proposedInWords(order, figures?.ladder.unit ?? 'cm')}</Fact>
          <Fact what="Expected life, making">{`${order.lifeDays} days from first wear, ${order.leadDays} days to make and deliver`}</Fact>
          <Fact what="Reason">{order.reasonCode}</Fact>
          {order.maker && <Fact what="Maker">{order.maker}</Fact>}
          {order.colour && <Fact what="Colour">{order.colour}</Fact>}
          {order.neededBy && <Fact what="Needed by">{showDay(order.neededBy)}</Fact>}
          {order.note && <Fact what="Note">{order.note}</Fact>}
        </dl>
        <OrderDifferences differences={differences} before={before?.piece} />
      </div>
      {figures ? (
        <>
          <p>{taping(figures)}</p>
          {pages.map((page, index) => (
            <section
              key={`${page.ladder.side} ${page.ladder.limb}`}
              className={index > 0 ? styles.nextPage : undefined}
              aria-label={limbInWords(page.ladder.limb, page.ladder.side)}
            >
              {pages.length > 1 && (
                <h3>{`${capitalized(limbInWords(page.ladder.limb, page.ladder.side))}: order ${order.order}, reference ${record.reference}, ladder ${index + 1} of ${pages.length}`}</h3>
              )}
              {index > 0 && <p>{counting(page.ladder)}</p>}
              <OrderFigures {...page} />
            </section>
          ))}
          {figures.measures && (
            <OrderMeasures
              measures={figures.measures}
              head={`order ${order.order}, reference ${record.reference}`}
              ownPage={pages.length > 1}
            />
          )}
          <ReadBack order={order} pages={pages.map(({ rows }) => rows)} measures={figures.measures?.length ?? 0} />
        </>
      ) : (
        <p className="guess">The visit whose figures this order is made to no longer has a ladder of this limb.</p>
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
  if (isNoAnswer(proposed)) return `not known: ${proposed.noAnswer}`;
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

/** The room proposed by place along one ladder of the set; none where none was worked out. */
function roomAlong({ allowance, limb, side }: Order, ladder: Ladder): ProposedRoom['places'] {
  const own = ladder.limb === limb && ladder.side === side;
  const proposed = own
    ? allowance.proposed
    : allowance.further?.find((one) => one.limb === ladder.limb && one.side === ladder.side)?.proposed;
  return proposed && 'places' in proposed ? proposed.places : [];
}

/** Where a ladder counts from, which way, and how far its rungs stand apart. */
function counting(ladder: Ladder): string {
  const interval = usualInterval(ladder);
  const every = interval === null ? '' : `, every ${showLengthWithUnit(interval * (ladder.unit === 'in' ? 25.4 : 10), ladder.unit, 16)}`;
  const way = ladder.direction === 'up' ? 'towards' : 'away from';
  return `Zero: ${placeInWords(ladder.zero)}, counting ${way} the trunk${every}.`;
}

/** When, by whom and how the ladder was taped, and what was measured beside it. */
function taping({ day, measurer, visitRevision, ladder, height, weight, readings }: SentFigures): string {
  const beside = [
    height && `height ${lengthAsTyped(height)}`,
    weight && `weight ${weight.text} ${weight.unit}`,
    ladder.floorToFold && `gluteal fold above the floor ${lengthAsTyped(ladder.floorToFold)}`,
    ...readings.map((one) => `${one.name} ${lengthAsTyped(one.length)}`),
  ].filter(Boolean);
  return `Measured ${showDay(day)}${measurer ? ` by ${measurer}` : ''}, state ${visitRevision} of the visit. ${counting(ladder)}${beside.length > 0 ? ` Also: ${beside.join('; ')}.` : ''}`;
}

/** Boxes for whoever reads the sheet back aloud before it leaves. */
function ReadBack({ order, pages, measures }: { order: Order; pages: readonly (readonly SheetRow[])[]; measures: number }) {
  const girths = pages.flat().filter((row) => row.girth).length;
  const units = new Set(pages.flat().map(({ distance }) => (distance.unit === 'in' ? 'inches' : 'centimetres')));
  const checks = [
    'reference',
    orderedInWords(order),
    [...units].join(' and '),
    'zero and direction',
    `${girths} girths, no row skipped`,
    ...(measures > 0 ? [`${measures} named measures`] : []),
  ];
  return (
    <div className={`${styles.readBackBox} print-only`}>
      <h3>Read back by a second person, aloud, before sending</h3>
      <ul className={styles.tickList}>
        {checks.map((one) => (
          <li key={one}>
            <span className={styles.tickBox} aria-hidden="true" /> {one}
          </li>
        ))}
      </ul>
      <div className={styles.signLines}>
        <span>read by</span>
        <span>heard by</span>
        <span>day</span>
      </div>
    </div>
  );
}
