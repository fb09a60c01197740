import { describe, expect, it } from 'vitest';
import { growthScales } from '@/app/_chart/growth-chart';
import { processScales } from '@/app/_chart/process-chart';
import { alongDays, chartReadings, pointsOfDays } from '@/app/_chart/readings';
import { tightnessReadings } from '@/app/_chart/tightness-readings';
import { chartOfRemakes } from '@/lib/service/service-charts';
import { calendarDay } from '@/lib/units/calendar-day';

const RULER = { zero: 'ankle-crease', zeroMm: 0, direction: 'up', unit: 'cm' } as const;

/** Where a point stands by the scale of its readings, px. */
function xOf({ fromX, toX, along }: { fromX: number; toX: number; along: readonly [number, number] }, at: number): number {
  return fromX + ((at - along[0]) / (along[1] - along[0])) * (toX - fromX);
}

describe('charts read in place', () => {
  const parts = {
    side: 'left' as const,
    ruler: RULER,
    band: { low: 0.95, high: 1.05 },
    landmarks: [
      { name: 'ankle', heightMm: 0 },
      { name: 'knee', heightMm: 400 },
    ],
    points: [
      { heightMm: 300, tightness: 1.02, reach: 0.02 },
      { heightMm: 100, tightness: 1.09, reach: 0.02 },
      { heightMm: 200, tightness: 0.9, reach: 0.02 },
    ],
    worn: [{ heightMm: 100, low: 0.93, middle: 0.97, high: 1.01 }],
  };

  const outside = (asCut: number) => (asCut > 1.05 ? 'tighter' : asCut < 0.95 ? 'looser' : undefined);

  it('a place has its name on the tape, what stands outside the band is said, and the tightest is read first', () => {
    const read = tightnessReadings(parts, outside);
    expect(read.points.map(({ words }) => words)).toEqual([
      'Place at 10.0 cm: tighter than the band, wear counted',
      'Place at 20.0 cm: looser than the band, wear counted',
      'Place at 30.0 cm',
    ]);
    expect(read.first).toBe(0);
    expect(read.points[0]?.readings).toEqual([
      { name: 'As cut', shape: 'left', value: 1.09, text: '1.09', range: '1.07–1.11' },
      { name: 'As worn', shape: 'diamond', value: 0.97, text: '0.97', range: '0.93–1.01' },
    ]);
    expect(read.points[2]?.readings).toHaveLength(1);
  });

  it('marks stand where the drawing has them: the landmarks at both ends 60 and 590 px of 764', () => {
    const read = tightnessReadings(parts, outside);
    expect(xOf(read, 0)).toBe(60);
    expect(xOf(read, 400)).toBe(590);
  });

  it('a value of a process chart stands in the middle of its step: 48 to 448 px for four months', () => {
    const fittings = ['2026-01', '2026-02', '2026-03', '2026-04'].flatMap((month) => [
      { month, garment: 'sleeve', outcome: 'remake', n: 2 },
      { month, garment: 'sleeve', outcome: 'kept', n: 8 },
    ]);
    const chart = chartOfRemakes({ fittings, betweenRemakes: [] } as never);
    if (!chart) throw new Error('no chart');
    const scales = processScales(chart);
    expect([0, 1, 2, 3].map((at) => xOf(scales, at))).toEqual([98, 198, 298, 398]);
  });

  it('one weighing alone still has a scale with two ends', () => {
    const day = calendarDay('2026-11-25');
    const scales = growthScales({ points: [{ day, value: 20 }], reference: [], ahead: [] });
    const [from, to] = alongDays(scales);
    expect(to).toBe(from + 1);
  });

  it('figures of a day are one point, oldest first', () => {
    const reading = (day: string, name: string) => ({
      day: calendarDay(day),
      name,
      shape: 'left' as const,
      value: 1,
      text: '1',
      range: '',
    });
    const points = pointsOfDays([reading('2026-11-25', 'Left'), reading('2026-03-01', 'Left'), reading('2026-11-25', 'Right')]);
    expect(points.map(({ words, readings }) => [words, readings.length])).toEqual([
      ['1 Mar 2026', 1],
      ['25 Nov 2026', 2],
    ]);
    const scales = growthScales({ points: [{ day: calendarDay('2026-03-01'), value: 20 }], reference: [], ahead: [] });
    expect(chartReadings({ ...scales, along: alongDays(scales) }, points).points).toBe(points);
  });
});
