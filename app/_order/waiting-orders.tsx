import Link from 'next/link';
import type { PatientHead } from '@/db/patients/patients';
import type { KeptOrder } from '@/db/patients/read-orders';
import { orderedInWords } from '@/lib/orders/order-set';
import { garmentForm } from '@/lib/record/garment-catalogue';
import { type CalendarDay, daysBetween, showDay } from '@/lib/units/calendar-day';

/** Orders of the clinic that are not done: whose, what, and what they wait for. */
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
          <th scope="col">Patient</th>
          <th scope="col">Order</th>
          <th scope="col">Made to measurements of</th>
          <th scope="col">Sent</th>
          <th scope="col">Waits for</th>
        </tr>
      </thead>
      <tbody>
        {orders.map((order) => (
          <tr key={order.orderId}>
            <th scope="row">
              <Link className="quiet-link" href={`/patients/${order.patientId}/orders/${order.orderId}`} prefetch={false}>
                {ownerOf.get(order.patientId)?.name ?? ownerOf.get(order.patientId)?.reference}
              </Link>
            </th>
            <td>
              {orderedInWords(order)}
              <span className="second-line">{`order ${order.order}, ${garmentForm(order.garment.form)?.words ?? order.garment.form}`}</span>
            </td>
            <td data-word="made to the measurements of">{showDay(order.cutFrom)}</td>
            <td data-word={order.ordered ? 'sent' : undefined}>
              {order.ordered ? showDay(order.ordered) : <span className="secondary">not sent</span>}
            </td>
            <td className="whole-row">{waitsFor(order, today)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function waitsFor(order: KeptOrder, today: CalendarDay): string {
  if (order.state === 'proposed') return order.checked ? 'checked, to be sent' : 'a second person’s check, then to be sent';
  if (!order.expected) return 'delivery, no day given';
  const late = daysBetween(order.expected, today);
  return late > 0
    ? `delivery, expected ${showDay(order.expected)}: ${late} ${late === 1 ? 'day' : 'days'} late`
    : `delivery, expected ${showDay(order.expected)}`;
}
