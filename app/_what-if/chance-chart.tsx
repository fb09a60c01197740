import chartStyles from '@/app/_chart/chart.module.css';
import { TapeAxis, ValueLines } from '@/app/_chart/chart-axes';
import { keepApart } from '@/app/_chart/keep-apart';
import { timeAxis } from '@/app/_chart/time-axis';
import { valueAxis } from '@/app/_chart/value-axis';
import { StaticMarkup } from '@/app/_markup/static-markup';
import type { WayId, WhatIf } from '@/lib/analysis/what-if';
import { isNoAnswer } from '@/lib/outcome';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { WAY_WORDS } from './way-words';
import styles from './what-if.module.css';

const WIDTH = 640;
const HEIGHT = 300;
const FROM_X = 56;
const TO_X = 540;
const TOP = 14;
const BOTTOM = 246;

const LINES: Readonly<Record<WayId, string | undefined>> = {
  now: '',
  'let-out': styles.letOut,
  'next-visit': styles.nextVisit,
  wait: styles.wait,
};

/** Chance of no working piece by week: one line a way, told apart by its dashes and its name at the end. */
export function ChanceChart({ tried, said }: { tried: WhatIf; said: string }) {
  const { weeks, ways } = tried;
  const axis = timeAxis(weeks[0] as CalendarDay, weeks.at(-1) as CalendarDay, FROM_X, TO_X);
  const values = valueAxis(0, 100, BOTTOM, TOP);
  const lines = ways.flatMap(({ id, ahead }) => (isNoAnswer(ahead) ? [] : [{ id, chances: ahead.noneAt, top: Math.max(...ahead.noneAt) }]));
  const named = keepApart(
    lines.map(({ chances }) => values.y(100 * (chances.at(-1) ?? 0))),
    15,
  );
  return (
    <StaticMarkup
      as="svg"
      className={chartStyles.chart}
      data-drawing="chart"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      width={WIDTH}
      height={HEIGHT}
      role="img"
      aria-label={said}
    >
      <ValueLines axis={values} fromX={FROM_X} toX={TO_X} show={(value) => `${value} %`} />
      {lines.map(({ id, chances }, index) => (
        <g key={id}>
          <path
            className={`${styles.way} ${LINES[id]}`}
            d={`M${chances.map((chance, week) => `${axis.x(weeks[week] as CalendarDay)} ${values.y(100 * chance)}`).join('L')}`}
          />
          <text className={chartStyles.axisText} x={TO_X + 10} y={(named[index] as number) + 4}>
            {WAY_WORDS[id].short}
          </text>
        </g>
      ))}
      <TapeAxis axis={axis} y={BOTTOM} fromX={FROM_X} toX={TO_X} />
    </StaticMarkup>
  );
}
