import { type DrawnRung, outlineInWords, RowOutline } from '@/app/_picture/row-outline';
import type { Ladder } from '@/lib/ladder/ladder';
import { tapedLine } from '@/lib/ladder/taped-line';
import type { SheetRow } from '@/lib/orders/printed-rows';
import type { LengthUnit } from '@/lib/units/length';
import { nameOf } from '@/lib/units/read-length';
import { showLength, showLengthWithUnit } from '@/lib/units/show-length';
import styles from './order-sheet.module.css';

/** The ladder that a garment is cut to: the limb in outline beside its figures in both units, what they were before, and the room. */
export function OrderFigures({ ladder, rows, sinceDay }: { ladder: Ladder; rows: readonly SheetRow[]; sinceDay: string | null }) {
  const own = ladder.unit;
  const other: LengthUnit = own === 'in' ? 'cm' : 'in';
  const upward = ladder.direction === 'up' ? [...rows].reverse() : rows;
  const withRoom = rows.some((row) => row.roomMm !== null);
  const { landmarks } = tapedLine(ladder);
  const rungs = upward.flatMap(({ girthMm, placeMm, beforeMm, roomMm }, row): DrawnRung[] =>
    girthMm === null ? [] : [{ placeMm, girthMm, row, beforeMm, roomMm }],
  );
  return (
    <>
      <div className={`${styles.orderLadder} scroll-across`}>
        <RowOutline side={ladder.side} rungs={rungs} landmarksMm={[...landmarks.values()]} rows={upward.length} rowPx={30} />
        <table className={styles.orderFigures} data-order-figures="">
          <caption>{`Towards the trunk at the top. Places from zero and girths in ${nameOf(own)} as typed, beside them in ${nameOf(other)}.${sinceDay ? ' Last: the last order’s ladder at the same anatomy.' : ''}${withRoom ? ' Room: middle estimate of the relaxed width to let out.' : ''}`}</caption>
          <thead>
            <tr>
              <th scope="col" className="numeric">{`Place, ${own}`}</th>
              <th scope="col" className="numeric">{`Girth, ${own}`}</th>
              <th scope="col" className="numeric">{`Place, ${other}`}</th>
              <th scope="col" className="numeric">{`Girth, ${other}`}</th>
              {sinceDay && <th scope="col" className="numeric">{`Last, ${own}`}</th>}
              {withRoom && <th scope="col" className="numeric">{`Room, ${own}`}</th>}
              <th scope="col">Read back</th>
              <th scope="col">Landmark, interval</th>
            </tr>
          </thead>
          <tbody>
            {upward.map((row) => (
              <FigureRow key={row.distance.typed} row={row} compared={sinceDay !== null} withRoom={withRoom} />
            ))}
          </tbody>
        </table>
      </div>
      <p className={`secondary ${styles.outlineWords}`}>{outlineInWords(rungs)}</p>
    </>
  );
}

function FigureRow({ row, compared, withRoom }: { row: SheetRow; compared: boolean; withRoom: boolean }) {
  const { distance, girth, beforeMm, roomMm } = row;
  const odd = row.oddInterval && row.intervalMm !== null && `odd interval ${showLengthWithUnit(row.intervalMm, distance.unit, 16)}`;
  return (
    <tr>
      <th scope="row" className="numeric">
        {distance.typed}
      </th>
      <td className={`numeric ${styles.sentGirth}`}>{girth ? girth.typed : '–'}</td>
      <td className="numeric">{distance.other}</td>
      <td className="numeric">{girth ? girth.other : '–'}</td>
      {compared && <td className="numeric">{beforeMm === null ? '–' : showLength(beforeMm, distance.unit)}</td>}
      {withRoom && <td className="numeric">{roomMm === null ? '–' : showLength(roomMm, distance.unit)}</td>}
      <td>{girth && <span className={styles.tickBox} aria-hidden="true" />}</td>
      <td>{[row.landmark, odd].filter(Boolean).join('; ')}</td>
    </tr>
  );
}
