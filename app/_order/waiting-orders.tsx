import { ColumnHeads } from '@/app/_shell/column-heads';
import type { PatientHead } from '@/db/patients/patients';
import type { KeptOrder } from '@/db/patients/read-orders';
import { formOf } from '@/lib/garment-forms/own-form';
import { orderedInWords } from '@/lib/orders/order-set';
import { groupedBy } from '@/lib/record/grouped-by';
import { type CalendarDay, daysBetween, showDay } from '@/lib/units/calendar-day';

/** Orders of the clinic that are not done: whose, what, and what they wait for; by maker where one is named, and by day. */
export function WaitingOrders({
  orders,
  ownerOf,
  today,
}: {
  orders: readonly KeptOrder[];
  ownerOf: ReadonlyMap<string, PatientHead>;
  today: CalendarDay;
}) {
  if (orders.length === 0) return <p className="nothing-yet">No order is open. One is started on its patient’s page.</p>;
  return (
    <table className="worklist">
      <thead>
        <tr>
          <ColumnHeads of={['Patient', 'Order', 'Made to measurements of', 'Sent', 'Waits for']} />
        </tr>
      </thead>
      {byMaker(orders).map(([maker, ofMaker]) => (
        <tbody key={maker}>
          {maker !== '' && (
            <tr>
              <th scope="rowgroup" colSpan={5}>
                {maker}
              </th>
            </tr>
          )}
          {ofMaker.map((order) => (
            <tr key={order.orderId}>
              <th scope="row">
                <a className="quiet-link" href={`/patients/${order.patientId}/orders/${order.orderId}`} data-soft="">
                  {ownerOf.get(order.patientId)?.name ?? ownerOf.get(order.patientId)?.reference}
                </a>
              </th>
              <td>
                {orderedInWords(order)}
                <span className="second-line">{`order ${order.order}, ${formOf(order.garment)?.words ?? order.garment.form}`}</span>
              </td>
              <td data-word="made to the measurements of">{showDay(order.cutFrom)}</td>
              <td data-word={order.ordered ? 'sent' : undefined}>
                {order.ordered ? showDay(order.ordered) : <span className="secondary">not sent</span>}
              </td>
              <td className="whole-row">{waitsFor(order, today)}</td>
            </tr>
          ))}
        </tbody>
      ))}
    </table>
  );
}

/** Orders by maker, those of none first; of one maker by the day they are waited for, those without a day last. */
function byMaker(orders: readonly KeptOrder[]): readonly (readonly [maker: string, orders: readonly KeptOrder[]])[] {
  const dayOf = ({ expected, neededBy }: KeptOrder) => expected ?? neededBy ?? '9999';
  const groups = groupedBy(orders, (order) => order.maker ?? '');
  return [...groups]
    .sort(([one], [other]) => one.localeCompare(other))
    .map(([maker, ofMaker]) => [maker, [...ofMaker].sort((one, other) => dayOf(one).localeCompare(dayOf(other)))]);
}

function waitsFor(order: KeptOrder, today: CalendarDay): string {
  const held = order.heldBack ? `; ${order.heldBack} of ${order.quantity} held back until one has been fitted` : '';
  return `${nextOf(order, today)}${held}`;
}

function nextOf(order: KeptOrder, today: CalendarDay): string {
  const needed = order.neededBy ? `, needed by ${showDay(order.neededBy)}` : '';
  if (order.state === 'proposed') return `${order.checked ? 'checked, to be sent' : 'a second person’s check, then to be sent'}${needed}`;
  if (!order.expected) return 'delivery, no day given';
  const late = daysBetween(order.expected, today);
  return late > 0
    ? `delivery, expected ${showDay(order.expected)}: ${late} ${late === 1 ? 'day' : 'days'} late`
    : `delivery, expected ${showDay(order.expected)}${order.neededBy && order.neededBy < order.expected ? `${needed}: too late` : ''}`;
}
