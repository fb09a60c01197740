/** What stands out of a process: one value outside its limits, eight in a row on one side of the centre, six in a row rising or falling. */
export type Signal = { readonly kind: 'outside' | 'one side' | 'rising' | 'falling'; readonly from: number; readonly to: number };

/** A process chart: its centre, the limits of each value, and what stands out. `frozenAt` values made the limits. */
export type ProcessChart = {
  readonly centre: number;
  readonly limits: readonly { readonly low: number; readonly high: number }[];
  readonly signals: readonly Signal[];
  readonly frozenAt: number;
};

/**
 * Values that make the limits; later ones are held against them and move them no more. Source: common practice (20 to 25 values).
 * With fewer the limits still move, and a page says so.
 */
export const FROZEN_AT = 20;
const ONE_SIDE = 8;
const IN_A_ROW = 6;
/** 3/d₂ and D₄ of two values, as tables of control charts print them. Source: ISO 7870-2:2023, table of coefficients, n = 2. */
const REACH_OF_RANGES = 2.66;
const LIMIT_OF_RANGES = 3.268;

/**
 * Chart of single values (days of a case, one number a week): mean ± 2.66 × mean moving range.
 *
 * Shape: values in order of time; `rangeLimit` is what a single step may be, 3.268 × mean moving range. Undefined with fewer than two values.
 * Source: ISO 7870-2:2023, individuals chart. Example: 14 11 18 13 16 12 15 20 13 12 17 14: centre 14.5833, limits 3.4597 and 25.7070, range 13.6662.
 */
export function chartOfValues(values: readonly number[]): (ProcessChart & { readonly rangeLimit: number }) | undefined {
  if (values.length < 2) return undefined;
  const base = values.slice(0, FROZEN_AT);
  const centre = mean(base);
  const range = mean(base.slice(1).map((value, index) => Math.abs(value - (base[index] as number))));
  const limits = values.map(() => ({ low: centre - REACH_OF_RANGES * range, high: centre + REACH_OF_RANGES * range }));
  return { ...charted(values, centre, limits), rangeLimit: LIMIT_OF_RANGES * range };
}

/**
 * Chart of shares (remakes a month): p̄ ± 3·√(p̄(1 − p̄)/n), each period by its own n, never below 0 or above 1.
 *
 * Shape: how many of how many, a period each, in order of time. Undefined without a case.
 * Source: ISO 7870-2:2023, p chart. Example: of 42 38 45 40 36 44 were 5 4 3 12 4 5: centre 0.13469, the fourth (0.3000) above its 0.2966.
 */
export function chartOfShares(periods: readonly { readonly some: number; readonly all: number }[]): ProcessChart | undefined {
  const base = periods.slice(0, FROZEN_AT);
  const cases = base.reduce((sum, { all }) => sum + all, 0);
  if (cases === 0) return undefined;
  const centre = base.reduce((sum, { some }) => sum + some, 0) / cases;
  const limits = periods.map(({ all }) => {
    const reach = all === 0 ? Number.POSITIVE_INFINITY : 3 * Math.sqrt((centre * (1 - centre)) / all);
    return { low: Math.max(0, centre - reach), high: Math.min(1, centre + reach) };
  });
  const shares = periods.map(({ some, all }) => (all === 0 ? centre : some / all));
  return charted(shares, centre, limits);
}

/**
 * Chart of what is rare: how many good pieces lay between two remakes, ḡ + 3·√(ḡ(ḡ + 1)) above, nothing below.
 *
 * Shape: counts between events, in order of time. Undefined without one. Many in a row without a remake are good news.
 * Source: Benneyan 2001, Health Care Manag Sci 4:305 (number-between g chart). Example: 7 12 3 9 14 6 10: 8.7143, upper limit 36.3164.
 */
export function chartOfCountsBetween(counts: readonly number[]): ProcessChart | undefined {
  if (counts.length === 0) return undefined;
  const centre = mean(counts.slice(0, FROZEN_AT));
  const limits = counts.map(() => ({ low: 0, high: centre + 3 * Math.sqrt(centre * (centre + 1)) }));
  return charted(counts, centre, limits);
}

function charted(values: readonly number[], centre: number, limits: ProcessChart['limits']): ProcessChart {
  return { centre, limits, signals: signalsIn(values, centre, limits), frozenAt: Math.min(values.length, FROZEN_AT) };
}

function signalsIn(values: readonly number[], centre: number, limits: ProcessChart['limits']): readonly Signal[] {
  const outside = values.flatMap((value, at): Signal[] => {
    const limit = limits[at];
    return limit && (value < limit.low || value > limit.high) ? [{ kind: 'outside', from: at, to: at }] : [];
  });
  const side = runs(values, (value) => Math.sign(value - centre)).filter(({ sign, from, to }) => sign !== 0 && to - from + 1 >= ONE_SIDE);
  const steps = runs(values.slice(1), (value, at) => Math.sign(value - (values[at] as number)));
  const along = steps.filter(({ sign, from, to }) => sign !== 0 && to - from + 2 >= IN_A_ROW);
  return [
    ...outside,
    ...side.map(({ from, to }): Signal => ({ kind: 'one side', from, to })),
    ...along.map(({ sign, from, to }): Signal => ({ kind: sign > 0 ? 'rising' : 'falling', from, to: to + 1 })),
  ];
}

/** Stretches of one sign, first to last. */
function runs(values: readonly number[], signOf: (value: number, at: number) => number) {
  const found: { sign: number; from: number; to: number }[] = [];
  for (const [at, value] of values.entries()) {
    const sign = signOf(value, at);
    const last = found.at(-1);
    if (last?.sign === sign) last.to = at;
    else found.push({ sign, from: at, to: at });
  }
  return found;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
