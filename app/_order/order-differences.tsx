import type { OrderDifference } from '@/lib/orders/order-difference';

/** What differs from the piece before it, and that nothing does, or that there is none. */
export function OrderDifferences({ differences, before }: { differences: readonly OrderDifference[]; before: string | undefined }) {
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
