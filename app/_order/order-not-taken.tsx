import { notTaken } from '@/lib/orders/missing-figures';
import type { AnsweredQuestion, Order, SentFigures } from '@/lib/record/order';
import styles from './order-sheet.module.css';

type Props = {
  readonly order: Order;
  readonly figures: SentFigures;
  /** Who wrote an answer and on which day, in words. */
  readonly by: (answer: AnsweredQuestion) => string;
};

/** What the garment is made to and nobody measured, by name, and why it leaves without: a row of the facts, none where all of it is there. */
export function OrderNotTaken({ order, figures, by }: Props) {
  const without = notTaken(order, figures);
  if (!without) return null;
  const { missing, why } = without;
  return (
    <div className={styles.notTaken} data-not-taken="">
      <dt>{order.sent ? 'Not taken: sent without' : 'Not taken yet'}</dt>
      <dd>
        <strong>{missing.join('; ')}</strong>
        <span className={styles.factMore}>
          {why ? `Why: “${why.answer}” (${by(why)})` : 'Nobody has written yet why it may leave without; that is asked before it is sent.'}
        </span>
      </dd>
    </div>
  );
}
