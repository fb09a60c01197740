import clsx from 'clsx';
import { StaticMarkup } from '@/app/_markup/static-markup';
import type { Side } from '@/lib/ladder/limb';
import { placeOnTape, type Ruler } from '@/lib/ladder/place-on-tape';
import styles from './chart.module.css';
import { keepApart } from './keep-apart';
import { PointMark } from './point-mark';
import { SideMark } from './side-mark';
import { valueAxis } from './value-axis';

/** Tightness of a piece along the limb, with the 95 % reach of each place. Heights in mm above the distal landmark. */
export type TightnessPoint = { readonly heightMm: number; readonly tightness: number; readonly reach: number };

/** Tightness as worn at a place, with its 95 % range. */
export type WornPoint = { readonly heightMm: number; readonly low: number; readonly middle: number; readonly high: number };

/** What a tightness chart is drawn from. */
export type TightnessParts = {
  readonly points: readonly TightnessPoint[];
  /** As worn, drawn dashed beside the figures as cut; none for a piece that was not worn yet. */
  readonly worn: readonly WornPoint[];
  readonly side: Side;
  readonly band: { readonly low: number; readonly high: number };
  readonly ruler: Ruler;
  readonly landmarks: readonly { readonly name: string; readonly heightMm: number }[];
};

const WIDTH = 764;
const HEIGHT = 262;
const FROM_X = 44;
const TO_X = 606;
const TOP = 22;
const BOTTOM = 200;
/** Between the ends of the limb and those of the axis, px. */
const MARGIN = 16;
/** Room that a value over its mark and a place under the axis take, px. */
const VALUE_PX = 29;

/** The scales of a tightness chart: of the drawing and of the readings over it. */
export function tightnessScales({ points, worn, band, landmarks }: TightnessParts) {
  const heights = [...points.map((point) => point.heightMm), ...landmarks.map((landmark) => landmark.heightMm)];
  const from = Math.min(...heights);
  const to = Math.max(...heights);
  const lows = points.map((point) => point.tightness - point.reach);
  const highs = points.map((point) => point.tightness + point.reach);
  const values = valueAxis(
    Math.min(band.low - 0.1, ...lows, ...worn.map((one) => one.low)),
    Math.max(band.high + 0.1, ...highs, ...worn.map((one) => one.high)),
    BOTTOM,
    TOP,
    5,
  );
  const along = [from, to > from ? to : from + 1] as const;
  return { width: WIDTH, height: HEIGHT, fromX: FROM_X + MARGIN, toX: TO_X - MARGIN, top: TOP, bottom: BOTTOM, along, values };
}

/** Tightness against the fitting by place, the clinic's working band behind it, the limb lying from left (far end) to right. */
export function TightnessChart({ said, ...parts }: TightnessParts & { readonly said: string }) {
  const { points, worn, side, band, ruler, landmarks } = parts;
  const { fromX, toX, along: ends, values: axis } = tightnessScales(parts);
  const x = (height: number): number => Math.round((fromX + ((height - ends[0]) / (ends[1] - ends[0])) * (toX - fromX)) * 100) / 100;
  const rows = valueRows(points.map((point) => x(point.heightMm)));
  const edges = [
    { at: band.high, words: 'tighter than the band' },
    { at: 1, words: 'as fitted' },
    { at: band.low, words: 'looser than the band' },
  ];
  const edgeY = keepApart(
    edges.map(({ at }) => axis.y(at)),
    14,
  );
  const along = (of: readonly WornPoint[], value: (one: WornPoint) => number): string =>
    of.map((one) => `${x(one.heightMm)} ${axis.y(value(one))}`).join('L');
  const area = `M${points.map((point) => `${x(point.heightMm)} ${axis.y(point.tightness + point.reach)}`).join('L')}L${[...points]
    .reverse()
    .map((point) => `${x(point.heightMm)} ${axis.y(point.tightness - point.reach)}`)
    .join('L')}Z`;
  return (
    <StaticMarkup
      as="svg"
      className={`${styles.chart} ${styles.tightnessChart}`}
      data-drawing="chart"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      width={WIDTH}
      height={HEIGHT}
      role="img"
      aria-label={said}
    >
      <g data-side={side}>
        <rect
          className={styles.bandArea}
          x={FROM_X}
          width={TO_X - FROM_X}
          y={axis.y(band.high)}
          height={axis.y(band.low) - axis.y(band.high)}
        />
        {[band.high, band.low].map((edge) => (
          <path key={edge} className={styles.bandEdge} d={`M${FROM_X} ${axis.y(edge)}H${TO_X}`} />
        ))}
        <path className={styles.axisLine} d={`M${FROM_X} ${axis.y(1)}H${TO_X}`} />
        {edges.map(({ at, words }, index) => (
          <g key={words}>
            <text className={styles.axisText} x={FROM_X - 8} y={(edgeY[index] as number) + 4} textAnchor="end">
              {at.toFixed(2)}
            </text>
            <text className={styles.axisText} x={TO_X + 10} y={(edgeY[index] as number) + 4}>
              {words}
            </text>
          </g>
        ))}
        {landmarks.map((landmark) => (
          <g key={landmark.name}>
            <path
              className={styles.landmarkLine}
              d={`M${x(landmark.heightMm)} ${TOP - 10}V${BOTTOM + 4}M${x(landmark.heightMm)} ${BOTTOM + 23}v6`}
            />
            <text className={styles.axisYear} x={x(landmark.heightMm)} y={BOTTOM + 42} textAnchor="middle">
              {landmark.name}
            </text>
          </g>
        ))}
        {points.length > 1 && <path className={styles.errorBand} d={area} />}
        {worn.length > 1 && (
          <path className={styles.wornBand} d={`M${along(worn, (one) => one.high)}L${along([...worn].reverse(), (one) => one.low)}Z`} />
        )}
        {worn.length > 1 && <path className={styles.wornLine} d={`M${along(worn, (one) => one.middle)}`} />}
        {worn.map((one) => (
          <PointMark key={one.heightMm} shape="diamond" x={x(one.heightMm)} y={axis.y(one.middle)} />
        ))}
        {points.length > 1 && (
          <path className={styles.valueLine} d={`M${points.map((point) => `${x(point.heightMm)} ${axis.y(point.tightness)}`).join('L')}`} />
        )}
        {points.map((point) => (
          <SideMark key={point.heightMm} side={side} x={x(point.heightMm)} y={axis.y(point.tightness)} />
        ))}
        {points.map((point, index) => (
          <g key={point.heightMm}>
            {rows[index] !== 'none' && (
              <text
                className={clsx(styles.valueWord, (point.tightness > band.high || point.tightness < band.low) && styles.outside)}
                x={x(point.heightMm)}
                y={axis.y(point.tightness) + (rows[index] === 'below' ? 19 : -10)}
                textAnchor="middle"
              >
                {point.tightness.toFixed(2)}
              </text>
            )}
            {rows[index] === 'above' && (
              <text className={`${styles.axisText} ${styles.place}`} x={x(point.heightMm)} y={BOTTOM + 18} textAnchor="middle">
                {placeOnTape(point.heightMm, ruler)}
              </text>
            )}
          </g>
        ))}
        <path className={styles.axisLine} d={`M${FROM_X} ${BOTTOM}H${TO_X}`} />
      </g>
    </StaticMarkup>
  );
}

/** Where each value stands: over its mark, under it where its neighbour leaves no room, or nowhere but in the table. */
function valueRows(xs: readonly number[]): ('above' | 'below' | 'none')[] {
  const last = { above: Number.NEGATIVE_INFINITY, below: Number.NEGATIVE_INFINITY };
  return xs.map((x) => {
    const row = (['above', 'below'] as const).find((one) => x - last[one] >= VALUE_PX) ?? 'none';
    if (row !== 'none') last[row] = x;
    return row;
  });
}
