'use client';

import { Area, CartesianGrid, ComposedChart, Line, ResponsiveContainer, Tooltip, XAxis, YAxis } from 'recharts';

/** Plain figures of one limb: days as YYYY-MM-DD, millilitres. */
export type ReadableLine = {
  readonly side: 'left' | 'right';
  readonly points: readonly {
    readonly day: string;
    readonly volumeMl: number;
    readonly lowMl: number;
    readonly highMl: number;
  }[];
};

type Row = { time: number } & Partial<Record<'left' | 'right', number>> & Partial<Record<'leftRange' | 'rightRange', [number, number]>>;

const LOOK = {
  left: { name: 'Left', dash: undefined, stroke: 'var(--left)' },
  right: { name: 'Right', dash: '9 3.5', stroke: 'var(--right)' },
} as const;

/** The volume chart with a reading under the pointer; true dates, the same figures as the table. */
export function ReadableChart({ lines }: { lines: readonly ReadableLine[] }) {
  const rows = rowsOf(lines);
  return (
    <div>
      <ResponsiveContainer width="100%" height={240}>
        <ComposedChart data={rows} margin={{ top: 8, right: 16, bottom: 4, left: 8 }} accessibilityLayer>
          <CartesianGrid stroke="var(--rule)" vertical={false} />
          <XAxis dataKey="time" type="number" scale="time" domain={['dataMin', 'dataMax']} tickFormatter={dayOf} stroke="var(--ink3)" />
          <YAxis domain={['auto', 'auto']} tickFormatter={(value: number) => String(Math.round(value))} width={56} stroke="var(--ink3)" />
          <Tooltip
            labelFormatter={(label) => dayOf(Number(label))}
            formatter={(value) =>
              Array.isArray(value) ? value.map((one) => Math.round(Number(one))).join('–') : `${Math.round(Number(value))} ml`
            }
          />
          {lines.map((line) => (
            <Area
              key={`${line.side} range`}
              dataKey={`${line.side}Range`}
              name={`${LOOK[line.side].name}, 95 %`}
              stroke="none"
              fill={LOOK[line.side].stroke}
              fillOpacity={0.14}
              isAnimationActive={false}
              connectNulls
            />
          ))}
          {lines.map((line) => (
            <Line
              key={line.side}
              dataKey={line.side}
              name={LOOK[line.side].name}
              stroke={LOOK[line.side].stroke}
              strokeWidth={2.2}
              strokeDasharray={LOOK[line.side].dash}
              dot={{ r: 4 }}
              isAnimationActive={false}
              connectNulls
            />
          ))}
        </ComposedChart>
      </ResponsiveContainer>
    </div>
  );
}

function rowsOf(lines: readonly ReadableLine[]): Row[] {
  const rows = new Map<string, Row>();
  for (const line of lines) {
    for (const point of line.points) {
      const row = rows.get(point.day) ?? {
        time: Date.parse(`${point.day}T00:00:00Z`),
      };
      row[line.side] = point.volumeMl;
      row[`${line.side}Range`] = [point.lowMl, point.highMl];
      rows.set(point.day, row);
    }
  }
  return [...rows.values()].sort((one, other) => one.time - other.time);
}

function dayOf(time: number): string {
  return new Intl.DateTimeFormat('en-GB', {
    day: 'numeric',
    month: 'short',
    year: '2-digit',
    timeZone: 'UTC',
  }).format(time);
}
