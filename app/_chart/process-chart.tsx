import { StaticMarkup } from '@/app/_markup/static-markup';
import { FROZEN_AT } from '@/lib/service/process-chart';
import type { ServiceChart } from '@/lib/service/service-charts';
import styles from './chart.module.css';
import { ValueLines } from './chart-axes';
import { keepApart } from './keep-apart';
import { PointMark } from './point-mark';
import { valueAxis } from './value-axis';

const WIDTH = 560;
const FROM_X = 48;
const TO_X = 448;
const TOP = 12;
const BOTTOM = 150;
/** A point of fewer cases is drawn open. */
const FEW = 20;

/** The scales of a process chart: of the drawing and of the readings over it, a value at each whole number. */
export function processScales({ points, chart }: Pick<ServiceChart, 'points' | 'chart'>) {
  const tops = points.flatMap(({ value }, index) => [value, chart.limits[index]?.high ?? value]);
  const values = valueAxis(0, Math.max(...tops), BOTTOM, TOP);
  const along = [-0.5, points.length - 0.5] as const;
  return { width: WIDTH, height: BOTTOM + 42, fromX: FROM_X, toX: TO_X, top: TOP, bottom: BOTTOM, along, values };
}

/** The mark of a value: open where it stands for few cases. */
export function processShape(kind: ServiceChart['kind'], n: number): 'square' | 'open-square' {
  return n < FEW && kind !== 'between' ? 'open-square' : 'square';
}
/** Room of a label under the axis, px. */
const LABEL_PX = 34;

type Props = {
  readonly of: ServiceChart;
  readonly show: (value: number) => string;
  readonly said: string;
};

/**
 * A process chart: a square a value (open with fewer than twenty cases), its mean and limits, a wash over the values that made them once they
 * are frozen; a red frame around what stands outside.
 */
export function ProcessChartPicture({ of: { points, chart, isFrozen, kind }, show, said }: Props) {
  const axis = processScales({ points, chart }).values;
  const step = (TO_X - FROM_X) / points.length;
  const x = (index: number) => Math.round((FROM_X + (index + 0.5) * step) * 100) / 100;
  const every = Math.ceil(LABEL_PX / step);
  const edge = (end: 'low' | 'high') =>
    chart.limits
      .map((limit, index) => {
        const y = axis.y(Math.max(limit[end], 0));
        return `${index === 0 ? 'M' : 'L'}${x(index) - step / 2} ${y}H${Math.round((x(index) + step / 2) * 100) / 100}`;
      })
      .join('');
  const [low, high] = [chart.limits.at(-1)?.low ?? 0, chart.limits.at(-1)?.high ?? 0];
  const words = [
    { at: high, words: `limit ${show(high)}` },
    { at: chart.centre, words: `mean ${show(chart.centre)}` },
    ...(low > 0 ? [{ at: low, words: `limit ${show(low)}` }] : []),
  ];
  const wordY = keepApart(
    words.map(({ at }) => axis.y(at)),
    15,
  );
  return (
    <StaticMarkup
      as="svg"
      className={`${styles.chart} ${styles.processChart}`}
      viewBox={`0 0 ${WIDTH} ${BOTTOM + 42}`}
      width={WIDTH}
      height={BOTTOM + 42}
      role="img"
      aria-label={said}
    >
      {isFrozen && <rect className={`${styles.frozenWash} wash`} x={FROM_X} y={TOP} width={FROZEN_AT * step} height={BOTTOM - TOP} />}
      <ValueLines axis={axis} fromX={FROM_X} toX={TO_X} show={show} />
      <path className={styles.limitLine} d={edge('high')} />
      {low > 0 && <path className={styles.limitLine} d={edge('low')} />}
      <path className={styles.axisLine} d={`M${FROM_X} ${axis.y(chart.centre)}H${TO_X}`} />
      {words.map((one, index) => (
        <text key={one.words} className={styles.axisText} x={TO_X + 8} y={(wordY[index] as number) + 4}>
          {one.words}
        </text>
      ))}
      <path
        className={styles.bodyLine}
        d={points.map(({ value }, index) => `${index === 0 ? 'M' : 'L'}${x(index)} ${axis.y(value)}`).join('')}
      />
      {points.map(({ label, value, n, isOutside }, index) => (
        <g key={label}>
          <PointMark shape={processShape(kind, n)} x={x(index)} y={axis.y(value)} />
          {isOutside && <rect className={styles.outsideSquare} x={x(index) - 7.5} y={axis.y(value) - 7.5} width={15} height={15} />}
          {index % every === 0 && (
            <text className={styles.axisText} x={x(index)} y={BOTTOM + 18} textAnchor="middle">
              {kind === 'between' ? label.replace(/\D+/, '') : label.slice(0, 3)}
            </text>
          )}
          {kind !== 'between' && index % every === 0 && isNewYear(points, index, every) && (
            <text className={styles.axisYear} x={x(index)} y={BOTTOM + 34} textAnchor="middle">
              {label.slice(4)}
            </text>
          )}
        </g>
      ))}
      <path className={styles.axisLine} d={`M${FROM_X} ${BOTTOM}H${TO_X}`} />
    </StaticMarkup>
  );
}

/** Whether a labelled point is the first labelled one of its year. */
function isNewYear(points: ServiceChart['points'], index: number, every: number): boolean {
  return points[index - every]?.label.slice(4) !== points[index]?.label.slice(4);
}
