import { describe, expect, it } from 'vitest';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import type { PatientEvent } from '@/lib/record/patient-record';
import { limbSeries } from '@/lib/trend/limb-series';
import { limbTrend } from '@/lib/trend/limb-trend';
import { rememberedChanges } from '@/lib/trend/remembered-changes';
import { addDays, calendarDay } from '@/lib/units/calendar-day';
import { recordOf, visitOf } from '../made-up-ladder';
import { legOf } from '../prompts/made-up-piece';

const START = calendarDay('2025-01-01');

/** The trend of a leg whose girths are these shares of the first, a visit every 73 days: five a year. */
function trendOf(factors: readonly number[], events: readonly PatientEvent[] = [], born = '1980-03-01') {
  const visits = factors.map((factor, index) =>
    visitOf(addDays(START, 73 * index), [legOf(factor)], { weight: '70 kg', height: '170 cm' }),
  );
  const [series] = limbSeries(recordOf(visits, { born: calendarDay(born) }), DEFAULT_POLICY);
  if (!series) throw new Error('no series');
  return limbTrend(series, events, rememberedChanges(DEFAULT_POLICY));
}

/** Girths that grow by a share of volume a year, exactly along ln V. */
const along = (yearly: number, visits: number) =>
  Array.from({ length: visits }, (_, index) => Math.exp((yearly * 73 * index) / 365.25 / 2));

describe('the trend of a limb', () => {
  it('is not given for one, two or three visits, with the reason', () => {
    for (const visits of [1, 2, 3]) expect(trendOf(along(0.1, visits))).toHaveProperty('noAnswer');
  });

  it('is a possible one from four visits, by a line through them, without p and forecast', () => {
    const trend = trendOf(along(0.08, 4));
    if (isNoAnswer(trend)) throw new Error(trend.noAnswer);
    expect([trend.method, trend.possible, trend.visits, trend.p, trend.forecast]).toEqual(['weighted line', true, 4, null, null]);
    expect(trend.slopePerYear).toBeCloseTo(0.08, 3);
    expect([trend.low < 0.08, trend.high > 0.08]).toEqual([true, true]);
  });

  it('is Theil–Sen with the exact test from six: six visits rising one after another have p 2/720', () => {
    // Six values all in order: |S| = 15, two of 6! = 720 orders.
    const trend = trendOf(along(0.08, 6));
    if (isNoAnswer(trend)) throw new Error(trend.noAnswer);
    expect([trend.method, trend.possible, trend.visits]).toEqual(['theil-sen', false, 6]);
    expect(trend.slopePerYear).toBeCloseTo(0.08, 3);
    expect(trend.p).toBeCloseTo(2 / 720, 9);
  });

  it('is carried on for half a year at most, and no longer than it was seen', () => {
    const trend = trendOf(along(0.08, 6));
    if (isNoAnswer(trend) || !trend.forecast) throw new Error('no forecast');
    expect(trend.forecast.until).toBe(addDays(START, 365 + 183));
    expect(trend.forecast.middle).toBeCloseTo(Math.exp((0.08 * (365 + 183)) / 365.25), 2);
    expect(trend.forecast.low).toBeLessThan(trend.forecast.middle);
  });

  it('starts again at an event, and an event before the first visit changes nothing', () => {
    const operation = (day: string): PatientEvent[] => [{ day: calendarDay(day), kind: 'operation', words: 'release' }];
    const jumped = [...along(0.08, 4), ...along(0.02, 6).map((factor) => 0.8 * factor)];
    const trend = trendOf(jumped, operation(addDays(START, 73 * 4 - 10)));
    if (isNoAnswer(trend)) throw new Error(trend.noAnswer);
    expect([trend.visits, trend.from]).toEqual([6, addDays(START, 73 * 4)]);
    expect(trend.slopePerYear).toBeCloseTo(0.02, 3);
    expect(trendOf(along(0.08, 6), operation('2020-01-01'))).toEqual(trendOf(along(0.08, 6)));
    expect(trendOf(along(0.08, 6), operation(addDays(START, 73 * 5)))).toEqual({
      noAnswer:
        'A trend needs four visits; until then each change stands against the smallest real change. The last event on record starts it anew.',
    });
  });

  it('of a child is of what growth and weight do not explain: a leg that grows with its body has none', () => {
    // Weight +3 % and height +1 % a visit; girth with weight to the power 0.49 and height to −0.25 (Snyder 1977, calf of boys and girls).
    const visits = Array.from({ length: 6 }, (_, index) =>
      visitOf(addDays(START, 73 * index), [legOf((1.03 ** index) ** 0.49 * (1.01 ** index) ** -0.25, { stretch: 1 + 0.012 * index })], {
        height: `${(130 * 1.01 ** index).toFixed(1)} cm`,
        weight: `${(30 * 1.03 ** index).toFixed(1)} kg`,
      }),
    );
    const [series] = limbSeries(recordOf(visits, { born: calendarDay('2016-03-01') }), DEFAULT_POLICY);
    const trend = series && limbTrend(series, [], rememberedChanges(DEFAULT_POLICY));
    if (!trend || isNoAnswer(trend)) throw new Error('no trend');
    const raw = 5 * 2 * (0.49 * Math.log(1.03) - 0.25 * Math.log(1.01));
    expect(trend.of).toBe('unexplained');
    expect(raw).toBeGreaterThan(0.1);
    expect(Math.abs(trend.slopePerYear)).toBeLessThan(0.3 * raw);
  });
});
