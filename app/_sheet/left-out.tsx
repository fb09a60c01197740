import { placeInWords } from '@/lib/ladder/limb';
import { showLengthWithUnit } from '@/lib/units/show-length';
import { endLandmark, leftOutPlace } from '@/lib/visit-form/entry-rows';
import type { LimbSheet } from '@/lib/visit-form/visit-form';
import styles from './sheet.module.css';

/** Says which rung of the grid is left out because the far landmark is so near, and offers to measure there all the same. */
export function LeftOut({
  sheet,
  onSheet,
}: {
  sheet: LimbSheet;
  onSheet: (change: (one: LimbSheet) => LimbSheet, words?: string) => void;
}) {
  const place = leftOutPlace(sheet);
  if (!place) return null;
  const shown = showLengthWithUnit(place.nm / 1e6, sheet.unit, 16);
  return (
    <p className={styles.leftOut} role="status">
      <span>
        No rung at {shown}: it lies close to the {placeInWords(endLandmark(sheet))}, where the last girth is measured.
      </span>
      <button
        className="button"
        type="button"
        onClick={() => onSheet((one) => ({ ...one, extras: [...one.extras, { place: place.text, name: '' }] }), `measure at ${shown} too`)}
      >
        Measure at {shown} too
      </button>
    </p>
  );
}
