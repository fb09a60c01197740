import { orderedInWords } from '@/lib/orders/order-set';
import type { SheetRow } from '@/lib/orders/printed-rows';
import type { Order } from '@/lib/record/order';
import type { NamedMeasure } from '@/lib/record/patient-record';
import styles from './order-sheet.module.css';

/** Stands on the screen at the foot of the page, on paper in the box that is read last. */
export const ORDER_CARE = 'Check side, unit, zero and figures before it leaves. Follow your local protocol and the prescriber.';

/** Boxes for whoever reads the sheet back aloud before it leaves. */
export function ReadBack({
  order,
  pages,
  measures,
}: {
  order: Order;
  pages: readonly (readonly SheetRow[])[];
  measures: readonly NamedMeasure[];
}) {
  const ladderUnits = pages.flat().map(({ distance }) => distance.unit);
  const unitsRead = ladderUnits.length > 0 ? ladderUnits : measures.map(({ length }) => length.unit);
  const girths = pages.flat().filter((row) => row.girth).length;
  const units = new Set(unitsRead.map((unit) => (unit === 'in' ? 'inches' : 'centimetres')));
  const checks = [
    'reference',
    orderedInWords(order),
    [...units].join(' and '),
    ...(pages.length > 0 ? ['zero and direction', `${girths} girths, no row skipped`] : []),
    ...(measures.length > 0 ? [`${measures.length} named measures${pages.length > 0 ? '' : ', none skipped'}`] : []),
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
      <p className={styles.orderCare}>{ORDER_CARE}</p>
    </div>
  );
}
