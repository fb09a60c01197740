import { REACH_95 } from '../statistics/reach-95';
import type { CountedDays } from './days-spread';
import { proportionRange } from './proportion-range';

/** Days in care with garments and days of them without a working piece, summed over patients, with the sums a range of their ratio needs. */
export type WithoutCounts = {
  /** Patients, and those of them with a day without. */
  readonly n: number;
  readonly withAny: number;
  readonly whole: number;
  readonly some: number;
  readonly wholeSquare: number;
  readonly someSquare: number;
  readonly product: number;
};

/** Limbs through a phase of one kind, by tenths of a percentage point of excess lost, and whether what was reached before was kept. */
export type ExcessCount = { readonly phase: string; readonly lost: number; readonly kept: boolean | null; readonly n: number };

export type CareCounts = { readonly without: WithoutCounts; readonly excess: readonly ExcessCount[] };

export type Share = { readonly some: number; readonly all: number; readonly share: number; readonly low: number; readonly high: number };

/** What the clinic's patients went without, and what became of their excess. */
export type CareFigures = {
  /** Days a year, a limb in care with garments, on which no piece worked; its 95 % range is null with one patient. */
  readonly without: { readonly n: number; readonly days: number; readonly low: number | null; readonly high: number | null } | null;
  readonly withAny: Share | null;
  readonly phases: readonly { readonly phase: string; readonly lost: CountedDays; readonly kept: Share | null }[];
};

const YEAR = 365.25;

/**
 * Days without a working piece a year and limb, and excess lost and kept by phase, from what was counted.
 *
 * Days: R = Σs / Σw over patients, s of w days; range R ± 1.96 √(n/(n − 1) · (Σs² − 2R Σsw + R² Σw²)) / Σw, so that the days of one patient count as one case; held above 0; times 365.25.
 * Kept: Wilson's range. Shape: counts; null where there is no case. Source: Cochran 1977, Sampling Techniques, 6.3 (from memory), ratio of two sums.
 * Example: two patients, 10 of 100 and 30 of 100 days: R 0.2, standard error 0.1.
 */
export function careFigures({ without, excess }: CareCounts): CareFigures {
  const { n, whole, some, wholeSquare, someSquare, product, withAny } = without;
  const ratio = some / whole;
  const squares = Math.max(0, someSquare - 2 * ratio * product + ratio ** 2 * wholeSquare);
  const reach = n > 1 ? (REACH_95 * Math.sqrt((n / (n - 1)) * squares)) / whole : undefined;
  const share = (of: number, all: number): Share | null => {
    const range = proportionRange(of, all);
    return range ? { some: of, all, ...range } : null;
  };
  return {
    without:
      whole > 0
        ? {
            n,
            days: YEAR * ratio,
            low: reach === undefined ? null : YEAR * Math.max(0, ratio - reach),
            high: reach === undefined ? null : YEAR * (ratio + reach),
          }
        : null,
    withAny: share(withAny, n),
    phases: [...new Set(excess.map(({ phase }) => phase))].map((phase) => {
      const own = excess.filter((row) => row.phase === phase);
      const told = own.filter(({ kept }) => kept !== null);
      const total = (rows: readonly ExcessCount[]) => rows.reduce((sum, row) => sum + row.n, 0);
      return {
        phase,
        lost: own.map(({ lost, n: cases }) => ({ days: lost, n: cases })),
        kept: share(total(told.filter(({ kept }) => kept)), total(told)),
      };
    }),
  };
}
