import { chartOfCountsBetween, chartOfShares, chartOfValues, FROZEN_AT, type ProcessChart } from './process-chart';
import type { Month, ServiceCounts } from './service-counts';
import { showMonth } from './service-period';

/** A process chart with what its values are: a label and a value each, and of how many cases; `signals` as sentences. */
export type ServiceChart = {
  readonly kind: 'shares' | 'days' | 'between';
  readonly points: readonly { readonly label: string; readonly value: number; readonly n: number; readonly isOutside: boolean }[];
  readonly chart: ProcessChart;
  readonly signals: readonly string[];
  /** False while the limits still move, because fewer values than that have made them. */
  readonly isFrozen: boolean;
};

/** Fewer remakes than this a month, on average, are charted by what lies between them. Source: common practice (a p chart of less is mostly noughts). */
const RARE_A_MONTH = 1;

/**
 * The chart of remakes over the whole record: the share of each month, or the fittings between two where remakes are rare.
 *
 * Undefined without a fitting, and where remakes are rare and fewer than two ever came. Months without a fitting are no value.
 */
export function chartOfRemakes({ fittings, betweenRemakes }: ServiceCounts): ServiceChart | undefined {
  const months = remakesByMonth(fittings);
  if (areRare(months)) return chartBetween(betweenRemakes);
  const chart = chartOfShares(months);
  const points = months.map(({ month, some, all }) => ({ label: showMonth(month), value: some / all, n: all }));
  return chart && withWords('shares', points, chart, ({ value, n }) => `${Math.round(value * n)} of ${n}`);
}

/** Whether remakes are charted by what lies between them: only then has that to be counted. */
export function areRemakesRare(fittings: ServiceCounts['fittings']): boolean {
  return areRare(remakesByMonth(fittings));
}

function areRare(months: readonly Sum[]): boolean {
  return months.reduce((sum, { some }) => sum + some, 0) < RARE_A_MONTH * months.length;
}

function remakesByMonth(fittings: ServiceCounts['fittings']) {
  return byMonth(fittings, (months, { month, outcome, n }) => {
    const { some, all } = months.get(month) ?? { some: 0, all: 0 };
    months.set(month, { some: some + (outcome === 'remake' ? n : 0), all: all + n });
  });
}

function chartBetween(counts: readonly number[]): ServiceChart | undefined {
  const chart = chartOfCountsBetween(counts);
  const points = counts.map((value, index) => ({ label: `before remake ${index + 2}`, value, n: value + 1 }));
  return chart && withWords('between', points, chart, ({ value }) => `${value} fittings without a remake`);
}

/**
 * The chart of days from the order sent to the fit that was kept, over the whole record: the mean of each month as one value.
 *
 * Undefined with fewer than two months. Months without a case are no value.
 */
export function chartOfDays({ kept }: ServiceCounts): ServiceChart | undefined {
  const months = byMonth(kept, (months, { month, days, n }) => {
    const { some, all } = months.get(month) ?? { some: 0, all: 0 };
    months.set(month, { some: some + days * n, all: all + n });
  });
  const points = months.map(({ month, some, all }) => ({ label: showMonth(month), value: some / all, n: all }));
  const chart = chartOfValues(points.map(({ value }) => value));
  return chart && withWords('days', points, chart, ({ value, n }) => `${value.toFixed(1)} days, n ${n}`);
}

type Sum = { readonly some: number; readonly all: number };

function byMonth<T>(rows: readonly T[], add: (months: Map<Month, Sum>, row: T) => void): readonly (Sum & { readonly month: Month })[] {
  const months = new Map<Month, Sum>();
  for (const row of rows) add(months, row);
  return [...months].map(([month, sum]) => ({ month, ...sum })).sort((one, other) => (one.month < other.month ? -1 : 1));
}

type Point = { readonly label: string; readonly value: number; readonly n: number };

function withWords(kind: ServiceChart['kind'], points: readonly Point[], chart: ProcessChart, say: (point: Point) => string): ServiceChart {
  const outside = new Set(chart.signals.filter((signal) => signal.kind === 'outside').map(({ from }) => from));
  const signals = chart.signals.map((signal) => {
    const [first, last] = [points[signal.from] as Point, points[signal.to] as Point];
    if (signal.kind === 'outside') {
      const side = first.value > chart.centre ? 'above its upper limit' : 'below its lower limit';
      return `${first.label} stands outside, ${side}: ${say(first)}.`;
    }
    const span = `${signal.to - signal.from + 1} in a row, ${first.label} to ${last.label}`;
    if (signal.kind === 'one side') return `${span}, all ${first.value > chart.centre ? 'above' : 'below'} the mean.`;
    return `${span}, each ${signal.kind === 'rising' ? 'higher' : 'lower'} than the one before.`;
  });
  return {
    kind,
    points: points.map((point, index) => ({ ...point, isOutside: outside.has(index) })),
    chart,
    signals,
    isFrozen: points.length >= FROZEN_AT,
  };
}
