import styles from './page-head.module.css';
/** A ruler under the page head: a tick each 8 px, a long one each 40 px, hanging from a hairline. */
export function TapeLine() {
  const short = [8, 16, 24, 32].map((x) => `M${x + 0.5} 0v5`).join('');
  return (
    <svg className={styles.tape} aria-hidden="true">
      <defs>
        <pattern id="tape-ticks" width="40" height="10" patternUnits="userSpaceOnUse">
          <path d={`M0 .5h40M.5 0v9.5${short}`} stroke="currentColor" fill="none" />
        </pattern>
      </defs>
      <rect width="100%" height="10" fill="url(#tape-ticks)" />
    </svg>
  );
}
