import { placeInWords } from '@/lib/ladder/limb';
import { readLength } from '@/lib/units/read-length';
import { showLength } from '@/lib/units/show-length';
import type { LimbSheet, VisitForm } from '@/lib/visit-form/visit-form';
import styles from './set-up.module.css';

/** The set-up in one line, with the way to change it. */
export function SetUpLine({ form, sheet, open, onChange }: { form: VisitForm; sheet: LimbSheet; open: boolean; onChange: () => void }) {
  const interval = readLength(sheet.interval, sheet.unit, true);
  const every = interval.kind === 'read' ? `${showLength(interval.value.nm / 1e6, sheet.unit, 16)} ${sheet.unit}` : 'no interval';
  return (
    <div className={styles.setUpLine}>
      <p>
        <b>{limbsInWords(sheet)}</b>
        <span>
          zero <b>{placeInWords(sheet.zero) || 'not said yet'}</b>, {sheet.direction === 'up' ? 'upward' : 'downward'}
        </span>
        <span>
          every <b>{every}</b>
        </span>
        {form.posture && <b>{form.posture}</b>}
        {form.measurer && (
          <span>
            measured by <b>{form.measurer}</b>
          </span>
        )}
      </p>
      <button className="link-button" type="button" id="set-up-change" aria-expanded={open} aria-controls="set-up" onClick={onChange}>
        {open ? 'Close' : 'Change'}
      </button>
    </div>
  );
}

/** `Both legs`, `Right arm` */
export function limbsInWords(sheet: LimbSheet): string {
  if (sheet.sides.length > 1) return `Both ${sheet.limb}s`;
  return `${sheet.sides[0] === 'left' ? 'Left' : 'Right'} ${sheet.limb}`;
}
