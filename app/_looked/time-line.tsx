import { changeInWords, type TimeLine } from '@/lib/observations/catalogue';
import { dayNumber, showDay } from '@/lib/units/calendar-day';
import styles from './looked.module.css';

const [WIDTH, HEIGHT, EDGE] = [240, 44, 5] as const;

/** One figure over time, small: its newest with the change, a point a day on the scale of its item, and how sure it is at the newest. */
export function TimeLineChart({ line }: { readonly line: TimeLine }) {
  const { kind, item, side, choice, points } = line;
  const last = points.at(-1);
  if (!last) return null;
  const unit = item.unit === '°' ? '°' : item.unit ? `\u202f${item.unit}` : '';
  const name = [item.label, side, choice].filter(Boolean).join(', ');
  const change = changeInWords(line);
  const now = `${last.value}${unit} on ${showDay(last.day)}${change ? `, ${change}` : ''}${last.rater ? `; ${last.rater}` : ''}`;
  const days = points.map(({ day }) => dayNumber(day));
  const [from, to] = [Math.min(...days), Math.max(...days)];
  const values = points.map(({ value }) => value);
  const error = kind.error?.leastChange ?? 0;
  const [low, high] = [Math.min(...values, last.value - error), Math.max(...values, last.value + error)];
  const x = (day: number) => EDGE + (to === from ? 1 : (day - from) / (to - from)) * (WIDTH - 2 * EDGE);
  const y = (value: number) => HEIGHT - EDGE - (high === low ? 0.5 : (value - low) / (high - low)) * (HEIGHT - 2 * EDGE);
  const placed = points.map(({ day, value }) => ({ day, x: x(dayNumber(day)).toFixed(1), y: y(value).toFixed(1) }));
  const end = placed.at(-1);
  return (
    <li className={styles.line}>
      <span className={styles.name}>{name}</span>
      <span className={styles.now}>{now}</span>
      <svg
        className={styles.chart}
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        preserveAspectRatio="none"
        role="img"
        aria-label={`${name}: ${points.length === 1 ? 'one figure' : `${points.length} figures`}, ${points.map(({ day, value }) => `${value}${unit} on ${showDay(day)}`).join(', ')}`}
      >
        {error > 0 && end && (
          <line
            className={styles.error}
            x1={end.x}
            x2={end.x}
            y1={y(last.value - error).toFixed(1)}
            y2={y(last.value + error).toFixed(1)}
          />
        )}
        <path d={placed.map((point, at) => `${at === 0 ? 'M' : 'L'}${point.x} ${point.y}`).join('')} />
        {placed.map((point) => (
          <circle key={`${point.day} ${point.x} ${point.y}`} cx={point.x} cy={point.y} r="2.6" />
        ))}
      </svg>
    </li>
  );
}
