import type { OrderDifference } from '@/lib/orders/order-difference';
import styles from './order-sheet.module.css';

/** What differs from the piece before it, and that nothing does, or that there is none. */
export function OrderDifferences({ differences, before }: { differences: readonly OrderDifference[]; before: string | undefined }) {
  if (before === undefined) return <p className="secondary">First order of this limb: there is nothing to compare it with.</p>;
  if (differences.length === 0) return <p className="secondary">{`As piece ${before} in everything but the girths.`}</p>;
  return (
    <section aria-label={`What differs from piece ${before}`} className={styles.differences}>
      <h3>{`What differs from piece ${before}`}</h3>
      <dl>
        {differences.map((one) => (
          <div key={one.what}>
            <dt>{one.what}</dt>
            <dd>{`${one.now}, was ${one.before}`}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
