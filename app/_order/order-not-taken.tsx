import { personIn } from '@/app/_shell/history-table';
import { notTaken } from '@/lib/orders/missing-figures';
import type { Order, SentFigures } from '@/lib/record/order';
import { capitalized } from '@/lib/units/capitalized';
import styles from './order-sheet.module.css';

type Props = {
  readonly order: Order;
  readonly figures: SentFigures;
  /** The clinic's day of a moment. */
  readonly day: (at: string) => string;
  /** Names of the clinic's people, by id. */
  readonly names: ReadonlyMap<string, string>;
};

/** What the garment is made to and nobody measured, each by name, and why it leaves without; nothing where all of it is there. */
export function OrderNotTaken({ order, figures, day, names }: Props) {
  const without = notTaken(order, figures);
  if (!without) return null;
  const { missing, why } = without;
  return (
    <section className={styles.notTaken} aria-labelledby="not-taken">
      <h3 id="not-taken">{order.sent ? 'Not taken: sent without these' : 'Not taken yet'}</h3>
      <ul>
        {missing.map((one) => (
          <li key={one}>{capitalized(one)}</li>
        ))}
      </ul>
      <p>
        {why
          ? `Why it leaves without: “${why.answer}” (${personIn(names, why.by)}, ${day(why.at)}).`
          : 'Nobody has written yet why it may leave without; that is asked before it is sent.'}
      </p>
    </section>
  );
}
