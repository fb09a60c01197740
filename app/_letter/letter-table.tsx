import type { LetterTable as Table } from '@/lib/summary/letter/letter-evidence';
import styles from './letter.module.css';

/** A table of a letter; wide ones scroll inside themselves, and heads repeat on paper. */
export function LetterTable({ table }: { table: Table }) {
  return (
    <div className="table-frame">
      <table className={styles.letterTable}>
        <caption>{table.caption}</caption>
        <thead>
          <tr>
            {table.heads.map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {table.rows.map((row) => (
            <tr key={row.join(' ')}>
              {row.map((cell, column) =>
                column === 0 ? (
                  <th key={table.heads[column]} scope="row">
                    {cell}
                  </th>
                ) : (
                  <td key={table.heads[column]}>{cell}</td>
                ),
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
