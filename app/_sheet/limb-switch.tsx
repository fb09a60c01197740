import type { SheetView } from '@/lib/entry/typed-view';
import type { Side } from '@/lib/ladder/limb';
import { typedCount, type VisitForm } from '@/lib/visit-form/visit-form';
import { limbsInWords } from './head/set-up-line';
import styles from './sheet.module.css';

type SwitchProps = {
  readonly form: VisitForm;
  readonly group: number;
  readonly view: SheetView;
  readonly shown: Side;
  readonly onGroup: (group: number) => void;
  readonly onSide: (side: Side) => void;
};

/** Which limbs, where there are several ladders; and on a phone, which side, with how far each is. */
export function LimbSwitch({ form, group, view, shown, onGroup, onSide }: SwitchProps) {
  const { sheet, rows } = view;
  return (
    <>
      {form.sheets.length > 1 && (
        <fieldset className={`filters ${styles.groupSwitch}`} aria-label="Limbs on this sheet">
          {form.sheets.map((one, index) => (
            <button
              key={`${limbsInWords(one)} ${one.zero} ${one.unit}`}
              type="button"
              aria-pressed={index === group}
              onClick={() => onGroup(index)}
            >
              {limbsInWords(one)}
            </button>
          ))}
        </fieldset>
      )}
      {sheet.sides.length > 1 && (
        <fieldset className={styles.sideSwitch} aria-label="Side">
          {sheet.sides.map((side) => (
            <button key={side} type="button" aria-pressed={side === shown} onClick={() => onSide(side)}>
              {side === 'left' ? 'Left' : 'Right'} {sheet.limb} · {typedCount(sheet, side)} of {rows.length}
            </button>
          ))}
        </fieldset>
      )}
    </>
  );
}
