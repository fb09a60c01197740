import { todayIn } from '@/app/_auth/today';
import { PaperFoot } from '@/app/_shell/paper-foot';
import { lengthAsTyped } from '@/lib/forms/read-cut';
import { formOf } from '@/lib/garment-forms/own-form';
import type { Ladder } from '@/lib/ladder/ladder';
import { limbInWords, placeInWords } from '@/lib/ladder/limb';
import { conventionInWords, optionsInWords, orderDifference, pressureInWords, wornInWords } from '@/lib/orders/order-difference';
import { orderedInWords, sentLadders } from '@/lib/orders/order-set';
import { sheetRows, usualInterval } from '@/lib/orders/printed-rows';
import { isNoAnswer } from '@/lib/outcome';
import { roomSizes } from '@/lib/prompts/outlook-in-words';
import { coverInWords } from '@/lib/prompts/show-figures';
import type { Order, ProposedRoom, SentFigures } from '@/lib/record/order';
import { showDay } from '@/lib/units/calendar-day';
import { capitalized } from '@/lib/units/capitalized';
import { mm } from '@/lib/units/length';
import { showLengthWithUnit } from '@/lib/units/show-length';
import type { LoadedOrder } from './load-order';
import { OrderDifferences } from './order-differences';
import { OrderFigures } from './order-figures';
import { OrderMeasures } from './order-measures';
import { OrderNotTaken } from './order-not-taken';
import { ReadBack } from './order-read-back';
import styles from './order-sheet.module.css';

/** The sheet a garment is made from: neutral words, both units, the figures as sent, and what differs from the last order. */
export function OrderSheet({ loaded, names }: { loaded: LoadedOrder; names: ReadonlyMap<string, string> }) {
  const { order, figures, record, details, before, since } = loaded;
  const pages = (figures ? sentLadders(figures) : []).map((ladder, index) => {
    const change = since[index] ?? null;
    return { ladder, rows: sheetRows(ladder, change, roomAlong(order, ladder)), sinceDay: change?.earlier.visit.day ?? null };
  });
  const differences = before ? orderDifference(before, { ...order, allowance: order.allowance.decided }) : [];
  const form = formOf(order.garment)?.words ?? order.garment.form;
  const named = `Order ${order.order}, reference ${record.reference}: ${form}, ${orderedInWords(order)}`;
  const ladderHead = ({ limb, side }: Ladder, number: number): string =>
    `${capitalized(limbInWords(limb, side))}: order ${order.order}, reference ${record.reference}, ladder ${number} of ${pages.length}`;
  return (
    <article className={styles.orderSheet} aria-labelledby="sheet-head">
      <PaperFoot words={`${named}, ${order.sent ? 'as sent' : order.state === 'cancelled' ? 'cancelled' : 'not sent'}`} />
      <header className={styles.orderSheetHead}>
        <div>
          <h2 id="sheet-head">{`Order ${order.order}: ${form}`}</h2>
          <p>{`Reference ${record.reference} · ${piecesInWords(order)}`}</p>
          <p className={order.sent ? undefined : 'guess'}>{standing(order, loaded.clinic.timeZone)}</p>
        </div>
        <p className={styles.sideFrame}>
          <strong>{orderedInWords(order)}</strong>
          {figures && <span>{unitOf(figures) === 'in' ? 'inches' : 'centimetres'}</span>}
        </p>
      </header>
      <dl className={styles.orderBand}>
        <Fact what="Deliver to" also={[...details.address, ...(details.phone ? [details.phone] : [])].join(', ')}>
          {details.name}
        </Fact>
        <Fact what="Needed by" also={`${order.leadDays} days to make and deliver`}>
          {order.neededBy ? showDay(order.neededBy) : 'no day agreed'}
        </Fact>
        {figures && (
          <Fact what="Measured" also={measuredBy(figures)}>
            {showDay(figures.day)}
          </Fact>
        )}
      </dl>
      <div className={styles.orderBody}>
        <div className={styles.orderFacts}>
          <dl>
            <Fact what="Covers">{coverInWords(order.covers)}</Fact>
            <Fact what="Reduction" also={conventionInWords(order.convention)}>{`${order.reductionPct}\u202f%`}</Fact>
            <Fact what="Class">{pressureInWords(order.garment)}</Fact>
            <Fact what="Room to let out" also={proposedInWords(order, figures ? unitOf(figures) : 'cm')}>
              {decidedInWords(order)}
            </Fact>
            <Fact what="Made with">{optionsInWords(order.garment)}</Fact>
            {order.colour && <Fact what="Colour">{order.colour}</Fact>}
            <Fact what="Worn" also={`meant to last ${order.lifeDays} days from first wear`}>
              {wornInWords(order.garment)}
            </Fact>
            {order.maker && <Fact what="Maker">{order.maker}</Fact>}
            <Fact what="Reason">{order.reasonCode}</Fact>
            {order.note && <Fact what="Note">{order.note}</Fact>}
          </dl>
        </div>
        {figures && (
          <div className={styles.ownFigures}>
            <p>{taping(figures)}</p>
            {pages.slice(0, 1).map((page) => (
              <section key="own" aria-label={limbInWords(page.ladder.limb, page.ladder.side)}>
                {pages.length > 1 && <h3>{ladderHead(page.ladder, 1)}</h3>}
                <OrderFigures {...page} />
              </section>
            ))}
            <OrderDifferences differences={differences} before={before?.piece} />
          </div>
        )}
      </div>
      {figures ? (
        <>
          {pages.slice(1).map((page, index) => (
            <section
              key={`${page.ladder.side} ${page.ladder.limb}`}
              className={styles.nextPage}
              aria-label={limbInWords(page.ladder.limb, page.ladder.side)}
            >
              <h3>{ladderHead(page.ladder, index + 2)}</h3>
              <p>{counting(page.ladder)}</p>
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
          <OrderNotTaken
            order={order}
            figures={figures}
            day={(at) => showDay(todayIn(loaded.clinic.timeZone, new Date(at)))}
            names={names}
          />
          <ReadBack order={order} pages={pages.map(({ rows }) => rows)} measures={figures.measures ?? []} />
        </>
      ) : (
        <p className="guess">
          {order.covers === 'measures'
            ? 'The visit whose figures this order is made to no longer has named measures of this garment.'
            : 'The visit whose figures this order is made to no longer has a ladder of this limb.'}
        </p>
      )}
    </article>
  );
}

function standing(order: Order, timeZone: string): string {
  if (!order.sent || !order.ordered)
    return order.state === 'cancelled'
      ? 'Cancelled before it was sent.'
      : 'Not sent yet: the figures below are those of the visit as it stands.';
  const checked =
    order.checked && order.checked !== 'unchecked'
      ? `checked by ${order.checked.name} on ${showDay(todayIn(timeZone, new Date(order.checked.at)))}`
      : 'unchecked';
  return `Sent ${showDay(order.ordered)}, ${checked}; expected ${order.expected ? showDay(order.expected) : 'on no given day'}. Figures frozen as sent.`;
}

/** How much is decided, and what holds it: the panel that was ordered, else the seams. */
function decidedInWords({ allowance, garment }: Order): string {
  if (!allowance.decided) return 'none';
  const panels = garment.options.filter(({ kind }) => kind === 'expansion panel').map(({ place }) => place);
  const held = panels.length > 0 ? `held by the expansion panel, ${panels.join(' and ')}` : 'stitched away until it is let out';
  return `${lengthAsTyped(allowance.decided)} in total, ${held}`;
}

function proposedInWords({ allowance }: Order, unit: 'in' | 'cm'): string {
  const { proposed } = allowance;
  if (isNoAnswer(proposed)) return `Proposed: not known. ${proposed.noAnswer}`;
  if (proposed.highMm === 0) return 'Proposed: none is expected to be needed.';
  return `Proposed: ${roomSizes(proposed, unit)}.`;
}

function Fact({ what, also, children }: { what: string; also?: string; children: string }) {
  return (
    <div>
      <dt>{what}</dt>
      <dd>
        <strong>{children}</strong>
        {also && <span className={styles.factMore}>{also}</span>}
      </dd>
    </div>
  );
}

/** How many, and how many of them wait for the first fit. */
function piecesInWords({ quantity, heldBack }: Order): string {
  const all = `${quantity} ${quantity === 1 ? 'piece' : 'pieces'}`;
  return heldBack ? `${all}: ${quantity - heldBack} to be made now, ${heldBack} only when released after the first fit` : all;
}

function measuredBy({ measurer, visitRevision }: SentFigures): string {
  return `${measurer ? `by ${measurer}, ` : ''}state ${visitRevision} of the visit`;
}

/** The room proposed by place along one ladder of the set, at most what was decided; none where none was worked out or none is ordered. */
function roomAlong({ allowance, limb, side }: Order, ladder: Ladder): ProposedRoom['places'] {
  const { decided } = allowance;
  if (!decided) return [];
  const own = ladder.limb === limb && ladder.side === side;
  const proposed = own
    ? allowance.proposed
    : allowance.further?.find((one) => one.limb === ladder.limb && one.side === ladder.side)?.proposed;
  const places = proposed && 'places' in proposed ? proposed.places : [];
  return places.map((place) => ({ ...place, middleMm: Math.min(place.middleMm, mm(decided.nm)) }));
}

/** The unit of the figures: of the ladder, else of the first named measure. */
function unitOf({ ladder, measures }: SentFigures): 'in' | 'cm' {
  return ladder?.unit ?? measures?.[0]?.length.unit ?? 'cm';
}

/** Where a ladder counts from, which way, and how far its rungs stand apart. */
function counting(ladder: Ladder): string {
  const interval = usualInterval(ladder);
  const every = interval === null ? '' : `, every ${showLengthWithUnit(interval * (ladder.unit === 'in' ? 25.4 : 10), ladder.unit, 16)}`;
  const way = ladder.direction === 'up' ? 'towards' : 'away from';
  return `Zero: ${placeInWords(ladder.zero)}, counting ${way} the trunk${every}.`;
}

/** How the ladder was taped, and what was measured beside it. */
function taping({ ladder, height, weight, readings }: SentFigures): string {
  const beside = [
    height && `height ${lengthAsTyped(height)}`,
    weight && `weight ${weight.text} ${weight.unit}`,
    ladder?.floorToFold && `gluteal fold above the floor ${lengthAsTyped(ladder.floorToFold)}`,
    ...readings.map((one) => `${one.name} ${lengthAsTyped(one.length)}`),
  ].filter(Boolean);
  const how = ladder ? counting(ladder) : 'Made to the named measures below alone; no ladder belongs to it.';
  return `${how}${beside.length > 0 ? ` Also: ${beside.join('; ')}.` : ''}`;
}
