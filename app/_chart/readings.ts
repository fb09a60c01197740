import type { Side } from '@/lib/ladder/limb';
import { type CalendarDay, dayNumber, showDay } from '@/lib/units/calendar-day';
import type { ValueAxis } from './value-axis';

/** The mark that a series has in its drawing: a side of the body, a square (open where it stands for few), or a diamond for what is worn. */
export type MarkShape = Side | 'square' | 'open-square' | 'diamond';

/** One series' figure at a point: its name and the shape of its mark, where that stands, and what is read there, in words. */
export type Reading = {
  readonly name: string;
  readonly shape: MarkShape;
  readonly value: number;
  readonly text: string;
  readonly range: string;
};

/** One point along the chart: where it lies on the scale, what it is called, and what is read there. */
export type ReadPoint = { readonly at: number; readonly words: string; readonly readings: readonly Reading[] };

/** Where a drawing lies in its picture, px. */
type Frame = {
  readonly width: number;
  readonly height: number;
  readonly fromX: number;
  readonly toX: number;
  readonly top: number;
  readonly bottom: number;
};

/** What a chart is read with: the scales of the drawing under it, and the figures of each point, from its left to its right. */
export type ChartReadings = Frame & {
  /** What stands at the ends of the two scales. */
  readonly along: readonly [number, number];
  readonly values: readonly [number, number];
  readonly points: readonly ReadPoint[];
  /** Which point is read at first; the last one where nothing else is said. */
  readonly first?: number;
};

/** The readings of a chart on the scales that its drawing has. */
export function chartReadings(
  {
    width,
    height,
    fromX,
    toX,
    top,
    bottom,
    along,
    values,
  }: Frame & { readonly along: readonly [number, number]; readonly values: ValueAxis },
  points: readonly ReadPoint[],
): ChartReadings {
  const ends = [values.low, values.high] as const;
  return { width, height, fromX, toX, top, bottom, along, values: ends, points };
}

/** The ends of a scale of days; of a single day, that and the next, as the axis is drawn. */
export function alongDays({ from, to }: { readonly from: CalendarDay; readonly to: CalendarDay }): readonly [number, number] {
  return [dayNumber(from), Math.max(dayNumber(to), dayNumber(from) + 1)];
}

/** Figures with their days as points of a chart, a point a day, oldest first. */
export function pointsOfDays(found: readonly (Reading & { readonly day: CalendarDay })[]): readonly ReadPoint[] {
  const days = [...new Set(found.map(({ day }) => day))].sort();
  return days.map((day) => ({
    at: dayNumber(day),
    words: showDay(day),
    readings: found.filter((one) => one.day === day).map(({ day: _, ...reading }) => reading),
  }));
}
