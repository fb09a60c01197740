import type { SheetData } from '@/lib/entry/entry-data';
import type { CellPlace } from '@/lib/entry/entry-state';
import type { SheetView } from '@/lib/entry/typed-view';
import type { Side } from '@/lib/ladder/limb';
import { showLength } from '@/lib/units/show-length';
import styles from './sheet-head.module.css';

type HeadProps = {
  readonly data: SheetData;
  readonly view: SheetView;
  readonly shown: Side;
  readonly editing: CellPlace | undefined;
  /** When it was measured, where that is another day than today. */
  readonly when: string;
  readonly onLeave: () => void;
};

/** Stays in view while the table moves: whose sheet it is, the side as a word under its own pen, and the rung that is being typed. */
export function SheetHead({ data, view, shown, editing, when, onLeave }: HeadProps) {
  const side = view.sheet.sides.includes(shown) ? shown : (view.sheet.sides[0] ?? shown);
  const at = view.rows.find((row) => row.key === editing?.row)?.at[side];
  return (
    <header className={styles.sheetHead}>
      <h1>{data.name}</h1>
      <p className={styles.side} data-side={side}>
        <b>{`${side === 'left' ? 'Left' : 'Right'} ${view.sheet.limb}`}</b>
        {at && <span>{`at ${showLength(at.nm / 1e6, view.sheet.unit, 16)}\u202f${view.sheet.unit}`}</span>}
      </p>
      <p className={styles.what}>
        <span>
          {data.reference} · {data.title}
          {when && ','}
        </span>
        {when && <span className={styles.when}>{when}</span>}
      </p>
      <a
        className={`button ${styles.leave}`}
        href={`/patients/${data.patientId}`}
        onClick={(event) => {
          event.preventDefault();
          onLeave();
        }}
        data-soft=""
      >
        <span>Leave, keep the draft</span>
      </a>
    </header>
  );
}
