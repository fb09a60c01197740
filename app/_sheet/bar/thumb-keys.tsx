import { type CellPlace, cellAt } from '@/lib/entry/entry-state';
import type { LengthUnit } from '@/lib/units/length';
import type { VisitForm } from '@/lib/visit-form/visit-form';
import styles from './sheet-bar.module.css';

const PARTS = ['1/8', '1/4', '3/8', '1/2', '5/8', '3/4', '7/8'];
const GLYPHS = ['⅛', '¼', '⅜', '½', '⅝', '¾', '⅞'];

type KeysProps = {
  readonly unit: LengthUnit;
  readonly place: CellPlace | null;
  readonly form: VisitForm;
  readonly onType: (place: CellPlace, text: string) => void;
  readonly onNext: (place: CellPlace) => void;
};

/** Under a number pad that has no fractions and no Enter: eighths, and the key to the next rung. Shown on touch screens only. */
export function ThumbKeys({ unit, place, form, onType, onNext }: KeysProps) {
  if (!place) return null;
  const cell = cellAt(form, place);
  const text = (place.again ? cell.again : cell.text) ?? '';
  return (
    <fieldset className={styles.thumbKeys} aria-label="Keys of the sheet">
      {unit === 'in' &&
        PARTS.map((part, index) => (
          <button
            key={part}
            className="button"
            type="button"
            aria-label={part}
            onPointerDown={(event) => event.preventDefault()}
            onClick={() => onType(place, `${text.replace(/\s*\d+\/\d+$/, '').trim()} ${part}`.trim())}
          >
            {GLYPHS[index]}
          </button>
        ))}
      <button className="button main" type="button" onPointerDown={(event) => event.preventDefault()} onClick={() => onNext(place)}>
        Next
      </button>
    </fieldset>
  );
}
