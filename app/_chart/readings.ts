import type { Side } from '@/lib/ladder/limb';
import { type CalendarDay, dayNumber, showDay } from '@/lib/units/calendar-day';
import type { ValueAxis } from './value-axis';

/** One limb's figure at a visit: where its mark stands, and in words. */
export type Reading = { readonly side: Side; readonly name: string; readonly value: number; readonly text: string; readonly range: string };

/** What a chart is read with: the scales of the drawing under it, and the figures of each visit. */
export type ChartReadings = {
  readonly width: number;
  readonly height: number;
  readonly fromX: number;
  readonly toX: number;
  readonly top: number;
  readonly bottom: number;
  /** Days and values at the ends of the two scales. */
  readonly days: readonly [number, number];
  readonly values: readonly [number, number];
  readonly visits: readonly { readonly day: number; readonly words: string; readonly readings: readonly Reading[] }[];
};

type Scales = Pick<ChartReadings, 'width' | 'height' | 'fromX' | 'toX' | 'top' | 'bottom'> & {
  readonly from: CalendarDay;
  readonly to: CalendarDay;
  readonly values: ValueAxis;
};

/** The readings of a chart by visit, oldest first, on the scales that its drawing has. */
export function chartReadings(scales: Scales, found: readonly (Reading & { readonly day: CalendarDay })[]): ChartReadings {
  const { width, height, fromX, toX, top, bottom, from, to, values } = scales;
  const days = [...new Set(found.map(({ day }) => day))].sort();
  return {
    width,
    height,
    fromX,
    toX,
    top,
    bottom,
    days: [dayNumber(from), dayNumber(to)],
    values: [values.low, values.high],
    visits: days.map((day) => ({
      day: dayNumber(day),
      words: showDay(day),
      readings: found.filter((one) => one.day === day).map(({ day: _, ...reading }) => reading),
    })),
  };
}
