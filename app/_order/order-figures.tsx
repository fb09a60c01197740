import { type DrawnRung, outlineInWords, RowOutline } from '@/app/_picture/row-outline';
import type { Ladder } from '@/lib/ladder/ladder';
import { placeInWords } from '@/lib/ladder/limb';
import { tapedLine } from '@/lib/ladder/taped-line';
import type { SheetRow } from '@/lib/orders/printed-rows';
import type { LengthUnit } from '@/lib/units/length';
import { nameOf } from '@/lib/units/read-length';
import { showLength, showLengthWithUnit, showTapedLength } from '@/lib/units/show-length';
import styles from './order-sheet.module.css';

/** Rows up to which paper has so high a row: the fewer there are, the larger they stand. Each height is in the styles. */
const ROWS_ON_PAPER = [
  { most: 13, size: 'few' },
  { most: 17, size: 'some' },
  { most: 22, size: 'many' },
] as const;

/** The ladder that a garment is cut to: the limb in outline beside its figures in both units, what they were before, and the room. */
export function OrderFigures({ ladder, rows, sinceDay }: { ladder: Ladder; rows: readonly SheetRow[]; sinceDay: string | null }) {
  const own = ladder.unit;
  const other: LengthUnit = own === 'in' ? 'cm' : 'in';
  const upward = ladder.direction === 'up' ? [...rows].reverse() : rows;
  const withRoom = rows.some((row) => row.roomMm !== null);
  const landmarks = [...tapedLine(ladder).landmarks];
  const rungs = upward.flatMap(({ girthMm, placeMm, beforeMm, roomMm }, row): DrawnRung[] =>
    girthMm === null ? [] : [{ placeMm, girthMm, row, beforeMm, roomMm }],
  );
  const size = ROWS_ON_PAPER.find(({ most }) => upward.length <= most)?.size ?? 'most';
  const odd = upward.flatMap(({ oddInterval, intervalMm, distance }) =>
    oddInterval && intervalMm !== null
      ? [`${distance.typed} ${own} stands ${showLengthWithUnit(intervalMm, distance.unit, 16)} from the one before`]
      : [],
  );
  return (
    <>
      <div className={`${styles.orderLadder} scroll-across`} data-rows={size}>
        <RowOutline
          side={ladder.side}
          rungs={rungs}
          landmarksMm={landmarks.map(([, placeMm]) => placeMm)}
          landmarkNames={landmarks.map(([name]) => placeInWords(name))}
          rows={upward.length}
          rowPx={30}
          narrow
        />
        <table className={styles.orderFigures} data-order-figures="">
          <caption className="visually-hidden">{`Towards the trunk at the top. Places from zero and girths in ${nameOf(own)} as typed, beside them in ${nameOf(other)}.`}</caption>
          <thead>
            <tr>
              <Head what="Place" unit={own} />
              <Head what="Girth" unit={own} />
              <Head what="Place" unit={other} />
              <Head what="Girth" unit={other} />
              {sinceDay && <Head what="Last" unit={own} />}
              {withRoom && <Head what="Room" unit={own} />}
              <th scope="col">Read back</th>
            </tr>
          </thead>
          <tbody>
            {upward.map((row) => (
              <FigureRow key={row.distance.typed} row={row} compared={sinceDay !== null} withRoom={withRoom} />
            ))}
          </tbody>
        </table>
      </div>
      <p className={`secondary ${styles.outlineWords}`}>
        {[
          `Towards the trunk at the top; girths in ${nameOf(own)} as typed.`,
          sinceDay && 'Last: the last order’s ladder at the same anatomy; – where it did not reach.',
          withRoom && 'Room: what is likely to be needed at each place (middle estimate, relaxed width), within the width decided.',
          odd.length > 0 && `Steps that differ: ${odd.join('; ')}.`,
          outlineInWords(rungs),
        ]
          .filter(Boolean)
          .join(' ')}
      </p>
    </>
  );
}

function Head({ what, unit }: { what: string; unit: LengthUnit }) {
  return (
    <th scope="col" className="numeric">
      {`${what}, `}
      <span className={styles.headUnit}>{unit}</span>
    </th>
  );
}

function FigureRow({ row, compared, withRoom }: { row: SheetRow; compared: boolean; withRoom: boolean }) {
  const { distance, girth, landmark, beforeMm, roomMm } = row;
  const place = (
    <th scope="row" className="numeric">
      {distance.typed}
    </th>
  );
  if (!girth)
    return (
      <tr>
        {place}
        <td className={styles.landmarkOfRow}>{landmark ?? 'not taped'}</td>
        <td className="numeric">{distance.other}</td>
        <td colSpan={2 + Number(compared) + Number(withRoom)} />
      </tr>
    );
  return (
    <tr>
      {place}
      <td className={`numeric ${styles.sentGirth}`}>{girth.typed}</td>
      <td className="numeric">{distance.other}</td>
      <td className="numeric">{girth.other}</td>
      {compared && <td className="numeric">{beforeMm === null ? '–' : showTapedLength(beforeMm, distance.unit)}</td>}
      {withRoom && <td className="numeric">{roomMm === null ? '–' : showLength(roomMm, distance.unit)}</td>}
      <td>
        <span className={styles.tickBox} aria-hidden="true" />
        {landmark && <span className={styles.landmarkOfRow}>{landmark}</span>}
      </td>
    </tr>
  );
}
