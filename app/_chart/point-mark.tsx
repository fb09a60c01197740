import clsx from 'clsx';
import styles from './chart.module.css';
import type { MarkShape } from './readings';
import { SideMark } from './side-mark';

type Props = { readonly shape: MarkShape; readonly x: number; readonly y: number; readonly half?: number };

/** The mark of one value in the shape of its series: the same in a drawing and over it while it is read. `half` is half a square's side, px. */
export function PointMark({ shape, x, y, half = 3.5 }: Props) {
  if (shape === 'left' || shape === 'right') return <SideMark side={shape} x={x} y={y} />;
  if (shape === 'diamond') return <path className={styles.wornMark} d={`M${x} ${y - 4}l4 4l-4 4l-4-4Z`} />;
  const className = clsx(styles.valueSquare, shape === 'open-square' && styles.few);
  return <rect className={className} x={x - half} y={y - half} width={2 * half} height={2 * half} />;
}
