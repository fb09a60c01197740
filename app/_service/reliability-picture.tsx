import clsx from 'clsx';
import type { RightFigures } from '@/lib/service/were-we-right';
import styles from './service.module.css';

const SIDE = 160;
const EDGE = 8;
/** Open with fewer cases than this. */
const FEW = 20;

/** Chance stated (across) against the share that came (up), a mark a tenth with its range. The table beside it has the same figures. */
export function ReliabilityPicture({ tenths }: Pick<RightFigures, 'tenths'>) {
  const at = (share: number) => Math.round(10 * (EDGE + SIDE * share)) / 10;
  const up = (share: number) => at(1 - share);
  const size = SIDE + 2 * EDGE;
  return (
    <svg
      className={styles.reliability}
      width={size}
      height={size}
      viewBox={`0 0 ${size} ${size}`}
      role="img"
      aria-label="Chance stated across, share that came up; dashed is exactly as stated. The table below has the same figures."
    >
      <path className={styles.frame} d={`M${at(0)} ${up(1)}V${up(0)}H${at(1)}`} />
      <path className={styles.asStated} d={`M${at(0)} ${up(0)}L${at(1)} ${up(1)}`} />
      {tenths.map(({ tenth, stated, share, low, high, all }) => (
        <g key={tenth}>
          <path className={styles.whisker} d={`M${at(stated)} ${up(low)}V${up(high)}`} />
          <rect className={clsx(styles.mark, all < FEW && styles.open)} x={at(stated) - 3.5} y={up(share) - 3.5} width={7} height={7} />
        </g>
      ))}
    </svg>
  );
}
