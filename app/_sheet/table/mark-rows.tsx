import type { Side } from '@/lib/ladder/limb';
import { readLength } from '@/lib/units/read-length';
import { echoLength } from '@/lib/units/show-length';
import { type LimbSheet, markKey } from '@/lib/visit-form/visit-form';
import styles from './ladder-table.module.css';
import { markBoxes, markId, markLabel, markSides, type SheetMark, sheetMarks, withMark } from './sheet-marks';

type RowsProps = {
  readonly sheet: LimbSheet;
  readonly twice: boolean;
  readonly onSheet: (change: (sheet: LimbSheet) => LimbSheet) => void;
  /** A phone shows one side at a time. */
  readonly onSide: (side: Side) => void;
  /** Enter on the last mark. */
  readonly onDone: () => void;
};

/** Landmarks on the ruler and the fold's height, typed new at every visit: rows of the ladder's own table. Enter goes to the next box, then to the first girth. */
export function MarkRows({ sheet, twice, onSheet, onSide, onDone }: RowsProps) {
  const boxes = markBoxes(sheet);
  const next = (id: string) => {
    const after = boxes[boxes.findIndex(({ side, mark }) => markId(side, mark) === id) + 1];
    if (!after) return onDone();
    onSide(after.side);
    const go = () => document.getElementById(markId(after.side, after.mark))?.focus();
    go();
    requestAnimationFrame(go);
  };
  return (
    <tbody className={styles.marks} data-marks="">
      {sheetMarks(sheet).map((one) => (
        <tr key={one.mark} className={styles.rung}>
          <th scope="row" className={styles.place}>
            {one.name}
            <span className={styles.placeName}>{one.of}</span>
          </th>
          {markSides(sheet).map((side) => (
            <MarkCells key={side} sheet={sheet} side={side} one={one} twice={twice} onSheet={onSheet} onEnter={next} />
          ))}
        </tr>
      ))}
    </tbody>
  );
}

type CellsProps = Pick<RowsProps, 'sheet' | 'twice' | 'onSheet'> & {
  readonly side: Side;
  readonly one: SheetMark;
  readonly onEnter: (id: string) => void;
};

function MarkCells({ sheet, side, one, twice, onSheet, onEnter }: CellsProps) {
  const id = markId(side, one.mark);
  const text = sheet.marks[markKey(side, one.mark)] ?? '';
  const reading = text.trim() === '' ? undefined : readLength(text, sheet.unit, true);
  const refused = reading && reading.kind !== 'read';
  const both = !sheet.apart && sheet.sides.length > 1;
  const own = both ? undefined : side;
  return (
    <>
      <td className={styles.girth} data-side={own}>
        <input
          id={id}
          className={styles.girthCell}
          data-look={refused ? 'refused' : text ? 'typed' : 'waiting'}
          type="text"
          inputMode="decimal"
          enterKeyHint="next"
          autoComplete="off"
          maxLength={60}
          aria-label={markLabel(sheet, side, one)}
          aria-describedby={`${id}-reading`}
          aria-invalid={refused}
          value={text}
          onChange={({ target }) => onSheet((now) => withMark(now, side, one.mark, target.value))}
          onKeyDown={(event) => {
            if (event.key !== 'Enter') return;
            event.preventDefault();
            onEnter(id);
          }}
        />
      </td>
      <td className={styles.readingCell} data-side={own} colSpan={both ? (twice ? 5 : 3) : twice ? 2 : 1}>
        <span className={refused ? 'refusal' : styles.markEcho} id={`${id}-reading`}>
          {reading?.kind === 'read' ? echoLength(reading.value.nm / 1e6, sheet.unit) : refused ? reading.reason : ''}
          {both && text !== '' && !refused && ', both sides'}
        </span>
      </td>
    </>
  );
}
