import { nextLimb, type RowsOfSheet } from '@/lib/entry/cell-keys';
import type { CellPlace } from '@/lib/entry/entry-state';
import { typedCount } from '@/lib/visit-form/visit-form';
import styles from './sheet.module.css';

type EndProps = {
  readonly view: RowsOfSheet;
  readonly ended: CellPlace;
  readonly finishWords: string;
  readonly onGoOn: (place: CellPlace) => void;
};

/** At the last rung of a limb: Enter goes no further by itself; one key or button goes on to the other limb, or to finishing. */
export function EndLine({ view, ended, finishWords, onGoOn }: EndProps) {
  const { sheet, rows } = view;
  const next = nextLimb(view, ended);
  return (
    <p className={styles.endLine} role="status">
      <span>
        End of the {ended.side} {sheet.limb}: {typedCount(sheet, ended.side)} of {rows.length} girths.
      </span>
      <button className="button" type="button" onClick={() => onGoOn(ended)}>
        {next ? `Go on with the ${next.side} ${sheet.limb}` : `Go to “${finishWords}”`} <kbd>N</kbd>
      </button>
    </p>
  );
}
