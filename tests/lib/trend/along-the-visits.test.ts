import { describe, expect, it } from 'vitest';
import { ownTrend } from '@/lib/garments/own-trend';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { girthByPlace } from '@/lib/trend/girth-by-place';
import type { LimbCourse } from '@/lib/trend/limb-course';
import { heightOnLimb, limbSeries } from '@/lib/trend/limb-series';
import { lookBack } from '@/lib/trend/looking-back';
import type { LimbSeries, SeriesVisit } from '@/lib/trend/series-visit';
import { volumeOfCourse, volumeOverTime } from '@/lib/trend/volume-over-time';
import { calendarDay } from '@/lib/units/calendar-day';
import { ladderOf, recordOf, visitOf } from '../made-up-ladder';
import { legOf } from '../prompts/made-up-piece';

function seriesOf(...ladders: ReturnType<typeof legOf>[]): LimbSeries {
  const visits = ladders.map((ladder, index) => visitOf(`2026-0${index + 1}-05`, [ladder]));
  const series = limbSeries(recordOf(visits), DEFAULT_POLICY)[0];
  if (!series) throw new Error('no series');
  return series;
}

describe('a limb’s own trend', () => {
  const series = seriesOf(legOf(), legOf(), legOf(), legOf());
  /** Log girth that nothing explains, and its variance, at each later visit; null where the two cannot be compared. */
  const trendOf = (...found: readonly (readonly [ln: number, variance: number] | null)[]) =>
    ownTrend(series, ((_: SeriesVisit, later: SeriesVisit) => {
      const one = found[series.visits.indexOf(later) - 1];
      if (!one) return { noAnswer: 'made up' };
      const girth = { ratio: 1.02 * Math.exp(one[0]), ownVariance: one[1] / 4, tensionVariance: one[1] / 4 };
      return { measured: { girth }, expectedGirthRatio: 1.02, body: { modelSd: Math.sqrt(one[1] / 2) } };
    }) as never);

  // Worked by hand: days 31, 59, 90; slope Σ(d y / v) / Σ(d² / v), shrunk by T² / (T² + 1/Σ(d²/v)) with T = 0.04 a year.
  it('is the slope through the first visit by the weights of the visits, drawn towards none', () => {
    const days = [31, 59, 90] as const;
    const found = [
      [0.004, 1e-4],
      [0.001, 4e-4],
      [0.009, 2e-4],
    ] as const;
    const information = days.reduce((sum, day, at) => sum + day ** 2 / (found[at]?.[1] ?? 1), 0);
    const slope = days.reduce((sum, day, at) => sum + (day * (found[at]?.[0] ?? 0)) / (found[at]?.[1] ?? 1), 0) / information;
    const spread = (0.04 / 365.25) ** 2;
    const trust = spread / (spread + 1 / information);
    const trend = trendOf(...found);
    expect(information).toBeCloseTo(9.61e6 + 8.7025e6 + 40.5e6, 0);
    expect(trend?.perDay).toBeCloseTo(trust * slope, 12);
    expect(trend?.sdPerDay).toBeCloseTo(Math.sqrt(trust / information), 12);
    expect(trend?.visits).toBe(4);
  });

  it('needs three visits that can be compared', () => {
    expect(trendOf([0.004, 1e-4], null, null)).toBeUndefined();
    expect(trendOf([0.004, 1e-4], [0.001, 4e-4], null)?.visits).toBe(3);
    expect(ownTrend({ ...series, visits: series.visits.slice(0, 2) }, (() => ({ noAnswer: 'made up' })) as never)).toBeUndefined();
  });
});

describe('what looks back, or along, has nothing where there is nothing', () => {
  const series = seriesOf(legOf(), legOf(), legOf());
  const [first, second, third] = series.visits as readonly [SeriesVisit, SeriesVisit, SeriesVisit];
  const course = {
    series,
    at: () => {
      throw new Error('asked for a belief');
    },
  } as unknown as LimbCourse;
  it('looks back from a later visit on two earlier ones of the same series, in their order', () => {
    expect(() => lookBack(course, first, second)).toThrow('asked for a belief');
    expect(lookBack(course, { ...first }, second)).toBeUndefined();
    expect(lookBack(course, second, second)).toBeUndefined();
    expect(lookBack(course, second, first)).toBeUndefined();
    expect(lookBack(course, second, third)).toBeUndefined();
  });

  it('a table of girths of a limb without a ladder has no rows', () => {
    expect(girthByPlace({ ...series, visits: [] }, DEFAULT_POLICY, 'first')).toEqual([]);
  });
});

describe('places and stretches', () => {
  const GIRTHS = [0, 12, 24, 36, 48, 60].map((place) => [place, 50 - place / 2] as const);
  it('a ladder down from the fold with the crease at 59 cm has its zero 590 mm above the crease', () => {
    const down = ladderOf({ girths: GIRTHS.slice(0, 5), zero: 'gluteal-fold', direction: 'down', landmarks: { 'ankle-crease': 59 } });
    const [visit] = seriesOf(down).visits;
    expect(visit && heightOnLimb(visit, 0)).toBeCloseTo(590, 9);
    expect(visit && heightOnLimb(visit, -120)).toBeCloseTo(470, 9);
  });

  // Six hundredths of 56 cm are 3.36 cm (clinic default of the file).
  it.each([
    [4, 60, true],
    [7, 60, true],
    [8, 60, false],
    [4, 57, true],
    [4, 56, false],
  ])('a ladder from %d to %d cm is on the line of one from 4 to 60: %s', (from, to, isOn) => {
    const landmarks = { knee: 28, 'gluteal-fold': 60 } as const;
    const cone = (places: readonly number[]) => ladderOf({ girths: places.map((place) => [place, 20 + place / 2] as const), landmarks });
    const over = volumeOverTime(seriesOf(cone([from, 20, 28, 36, to]), cone([4, 20, 28, 36, 60])), DEFAULT_POLICY);
    expect(over?.points.map(({ atVisit }) => atVisit)).toEqual(isOn ? [0, 1] : [1]);
  });

  it('the line of all visits together is the volume times e to twice the difference of levels', () => {
    const point = { day: calendarDay('2026-01-05'), volumeMl: 1000, lowMl: 980, highMl: 1020, atVisit: 1 };
    const course = { levels: () => [{ visit: 1, level: 0.5, taped: 0.51, sd: 0.005 }] } as unknown as LimbCourse;
    const [smooth] = volumeOfCourse(course, [point]);
    expect(smooth?.volumeMl).toBeCloseTo(1000 * Math.exp(-0.02), 9);
    expect(smooth?.lowMl).toBeCloseTo(1000 * Math.exp(2 * (-0.01 - 1.959964 * 0.005)), 3);
    expect(smooth?.highMl).toBeCloseTo(1000 * Math.exp(2 * (-0.01 + 1.959964 * 0.005)), 3);
    expect(volumeOfCourse(course, [{ ...point, atVisit: 2 }])).toEqual([]);
  });
});
