import styles from './sheet-bar.module.css';

/** Said in the bar while the second part could not be loaded. */
export function SecondPartMissing() {
  return (
    <p className={styles.finishNote} role="status">
      Questions are not asked just now, and hand, foot, trunk, head, pasting and reading back are not there: a part of this page could not
      be loaded. It is tried again. Figures can be typed; the server asks when the visit is finished.
    </p>
  );
}
