import type { FigureDifference } from '@/lib/entry/figure-differences';
import styles from './draft.module.css';

type TableProps = {
  readonly caption: string;
  readonly one: string;
  readonly other: string;
  readonly differences: readonly FigureDifference[];
};

/** Two versions side by side, only where they differ. */
export function DifferenceTable({ caption, one, other, differences }: TableProps) {
  return (
    <div className="table-frame">
      <table className={styles.differences}>
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">Where</th>
            <th scope="col">{one}</th>
            <th scope="col">{other}</th>
          </tr>
        </thead>
        <tbody>
          {differences.map((difference) => (
            <tr key={difference.where}>
              <th scope="row">{difference.where}</th>
              <td>{difference.one}</td>
              <td>
                <b>{difference.other}</b>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
