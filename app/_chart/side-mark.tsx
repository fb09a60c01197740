import type { Side } from '@/lib/ladder/limb';
import styles from './chart.module.css';

/** Left is an open circle, right a filled triangle; smaller ones where many stand in a row. */
export function SideMark({ side, x, y, small = false }: { side: Side; x: number; y: number; small?: boolean }) {
  if (side === 'left') return <circle className={styles.mark} cx={x} cy={y} r={small ? 2.5 : 4} />;
  return <path className={styles.mark} d={small ? `M${x} ${y - 3}l3 5h-6Z` : `M${x} ${y - 5}l5 8.5h-10Z`} />;
}
