import { isNoAnswer, type NoAnswer } from '../outcome';
import type { PatientEvent } from '../record/patient-record';
import { lineOfBestFit } from '../statistics/line-of-best-fit';
import { mannKendall } from '../statistics/mann-kendall';
import { REACH_95 } from '../statistics/reach-95';
import { theilSen } from '../statistics/theil-sen';
import { addDays, type CalendarDay } from '../units/calendar-day';
import type { ChangeBetween, LimbChange } from './limb-change';
import { ratioSd } from './measured-change';
import type { LimbSeries, SeriesVisit } from './series-visit';

/** What a trend is of: volume in adults; in children what growth and weight do not explain of the mean cross-section. */
export type TrendOf = 'volume' | 'unexplained';

/** A slope over visits since the last event, as a share per year, with its 95 % interval. */
export type LimbTrend = {
  readonly method: 'theil-sen' | 'weighted line';
  readonly of: TrendOf;
  readonly slopePerYear: number;
  readonly low: number;
  readonly high: number;
  readonly p: number | null;
  /** Four or five visits give a possible trend only. */
  readonly possible: boolean;
  readonly visits: number;
  readonly from: CalendarDay;
  readonly to: CalendarDay;
  /** The trend carried on, no longer than the observed span or six months; null before the sixth visit. Ratios to the first visit. */
  readonly forecast: Forecast | null;
};

export type Forecast = { readonly until: CalendarDay; readonly middle: number; readonly low: number; readonly high: number };

const DAYS_IN_YEAR = 365.25;
const FEWEST_FOR_LINE = 4;
const FEWEST_FOR_THEIL_SEN = 6;
const LONGEST_FORECAST_DAYS = 183;

/**
 * The trend of a limb over its visits, each compared with the first one after the last event over the anatomy both taped.
 *
 * Works on y = ln(ratio) against days; of a child on ln of what growth and weight do not explain, 2 ln (girth / expected girth). One to three visits: no slope, with the reason. Four or five: weighted line with the known tape error
 * as the least SD, called possible. Six or more: Theil–Sen slope with exact or normal Mann–Kendall test, and a short forecast.
 * Shape: a series, the patient's events, the changes between its visits; shares per year. Source: engine section 6; Sen 1968; Kendall 1975.
 * Example: ratios 1, 1.01, 1.02, 1.03 at quarters of a year: about 4 % a year, possible.
 */
export function limbTrend(series: LimbSeries, events: readonly PatientEvent[], between: ChangeBetween): LimbTrend | NoAnswer {
  const visits = sinceLastEvent(series.visits, events);
  const baseline = visits[0];
  const tooFew = {
    noAnswer: `A trend needs four visits; until then each change stands against the smallest real change.${visits.length < series.visits.length ? ' The last event on record starts it anew.' : ''}`,
  };
  if (series.visits.length < 2) return { noAnswer: 'One ladder so far. Change shows from the second visit on.' };
  if (!baseline) return tooFew;
  const of: TrendOf = baseline.growing ? 'unexplained' : 'volume';
  const points = [{ day: 0, y: 0, sd: 0 }];
  for (const visit of visits.slice(1)) {
    const change = between(baseline, visit, series.limb);
    const ratio = isNoAnswer(change) ? undefined : logRatio(change, of);
    if (ratio) points.push({ day: visit.placed.day - baseline.placed.day, ...ratio });
  }
  if (points.length < FEWEST_FOR_LINE) return tooFew;
  const days = points.map((point) => point.day);
  const values = points.map((point) => point.y);
  const known = points.reduce((sum, point) => sum + point.sd, 0) / (points.length - 1) / Math.SQRT2;
  const span = { visits: points.length, from: baseline.visit.day, to: (visits.at(-1) as SeriesVisit).visit.day, of };
  return points.length < FEWEST_FOR_THEIL_SEN ? byLine(days, values, known, span) : byTheilSen(days, values, known, span);
}

type TrendSpan = Pick<LimbTrend, 'visits' | 'from' | 'to' | 'of'>;

function byLine(days: readonly number[], values: readonly number[], knownSd: number, span: TrendSpan): LimbTrend | NoAnswer {
  const line = lineOfBestFit(days, values, knownSd, knownSd);
  if (!line) return { noAnswer: 'All visits are of one day.' };
  return { method: 'weighted line', ...span, ...yearly(line.slope, line.low, line.high), p: null, possible: true, forecast: null };
}

function byTheilSen(days: readonly number[], values: readonly number[], knownSd: number, span: TrendSpan): LimbTrend | NoAnswer {
  const sen = theilSen(days, values);
  const test = mannKendall(days, values);
  if (!sen || !test) return { noAnswer: 'All visits are of one day.' };
  if (!sen.interval) return { noAnswer: 'Too few different visits for an interval of the slope.' };
  const { low, high } = sen.interval;
  const observed = Math.max(...days);
  const ahead = Math.min(observed, LONGEST_FORECAST_DAYS);
  const centre = sen.intercept + sen.slope * (observed + ahead);
  const reach = ahead + observed / 2;
  const residual = Math.max(knownSd, residualSd(days, values, sen.slope, sen.intercept));
  const below = Math.hypot((sen.slope - low) * reach, REACH_95 * residual);
  const above = Math.hypot((high - sen.slope) * reach, REACH_95 * residual);
  const forecast: Forecast = {
    until: addDays(span.to, ahead),
    middle: Math.exp(centre),
    low: Math.exp(centre - below),
    high: Math.exp(centre + above),
  };
  return { method: 'theil-sen', ...span, ...yearly(sen.slope, low, high), p: test.p, possible: false, forecast };
}

function yearly(slope: number, low: number, high: number): Pick<LimbTrend, 'slopePerYear' | 'low' | 'high'> {
  return { slopePerYear: slope * DAYS_IN_YEAR, low: low * DAYS_IN_YEAR, high: high * DAYS_IN_YEAR };
}

function residualSd(days: readonly number[], values: readonly number[], slope: number, intercept: number): number {
  const squares = days.reduce((sum, day, index) => sum + ((values[index] as number) - intercept - slope * day) ** 2, 0);
  return Math.sqrt(squares / Math.max(days.length - 2, 1));
}

/** Undefined in a child of whom nobody knows what growth explains. */
function logRatio({ measured, body, expectedGirthRatio }: LimbChange, of: TrendOf): { y: number; sd: number } | undefined {
  if (of === 'volume') return { y: Math.log(measured.volume.ratio), sd: ratioSd(measured.volume) };
  if (body.modelSd === undefined) return undefined;
  return { y: 2 * Math.log(measured.girth.ratio / expectedGirthRatio), sd: 2 * Math.hypot(ratioSd(measured.girth), body.modelSd) };
}

/** Visits from the last event on; an event on the day of a visit starts the series at that visit. */
function sinceLastEvent(visits: readonly SeriesVisit[], events: readonly PatientEvent[]): readonly SeriesVisit[] {
  const last = visits.at(-1)?.visit.day;
  const restart = events
    .map((event) => event.day)
    .filter((day) => last !== undefined && day <= last)
    .sort()
    .at(-1);
  return restart === undefined ? visits : visits.filter((visit) => visit.visit.day >= restart);
}
