import styles from './picture.module.css';
/** Patterns of the limb outline: the mesh of a piece, and the dots and stripes of tightness. Nothing is told by colour alone. */
export function OutlinePatterns({ name }: { name: string }) {
  return (
    <defs>
      {(['left', 'right'] as const).map((side) => (
        <pattern key={side} id={`${name}-mesh-${side}`} data-side={side} width={6} height={6} patternUnits="userSpaceOnUse">
          <path className={styles.meshLine} d="M0 6L6 0M0 0L6 6" />
        </pattern>
      ))}
      <pattern id={`${name}-dots-dense`} width={5} height={5} patternUnits="userSpaceOnUse">
        <circle className={styles.looseDot} cx={2.5} cy={2.5} r={1.3} />
      </pattern>
      <pattern id={`${name}-dots`} width={9} height={9} patternUnits="userSpaceOnUse">
        <circle className={styles.looseDot} cx={4.5} cy={4.5} r={1.2} />
      </pattern>
      <pattern id={`${name}-stripes`} width={8} height={8} patternUnits="userSpaceOnUse">
        <path className={`${styles.tightStripe} ${styles.thin}`} d="M-2 2l4-4M0 8L8 0M6 10l4-4" />
      </pattern>
      <pattern id={`${name}-stripes-dense`} width={5} height={5} patternUnits="userSpaceOnUse">
        <path className={styles.tightStripe} d="M-1.25 1.25l2.5-2.5M0 5L5 0M3.75 6.25l2.5-2.5" />
      </pattern>
    </defs>
  );
}
