/** Days of cases, each with how many had just so many. */
export type CountedDays = readonly { readonly days: number; readonly n: number }[];

/** The fewest cases of which a middle is said; fewer are shown as they are. Source: common practice, as for ranking people. */
export const FEWEST_FOR_A_MIDDLE = 20;

/** How days of cases spread: the median with its 95 % range (an end that so few cases cannot give is null), and by when nine in ten were done. */
export type DaysSpread = {
  readonly n: number;
  readonly median: number;
  readonly low: number | null;
  readonly high: number | null;
  readonly nineInTen: number;
};

/**
 * Median of counted days with the exact 95 % range of it between two cases by order, and the day by which nine in ten were done.
 *
 * The range goes from the l-th to the (n + 1 − l)-th smallest, l the largest with P(Bin(n, ½) < l) ≤ 2.5 %: no law of the days is assumed,
 * and no chance is drawn. The median of an even number is the mean of the middle two; nine in ten is the ⌈0.9 n⌉-th smallest.
 * Shape: days and counts, whole numbers; undefined with fewer than twenty cases.
 * Source: Conover 1999, Practical Nonparametric Statistics, 3.2. Example: days 1 to 20, one case each: 10.5, 6 to 15, nine in ten by 18.
 */
export function daysSpread(counted: CountedDays): DaysSpread | undefined {
  const sorted = [...counted].sort((one, other) => one.days - other.days);
  const n = sorted.reduce((sum, one) => sum + one.n, 0);
  if (n < FEWEST_FOR_A_MIDDLE) return undefined;
  const at = (rank: number): number => {
    let seen = 0;
    for (const one of sorted) {
      seen += one.n;
      if (seen >= rank) return one.days;
    }
    return sorted.at(-1)?.days as number;
  };
  const low = lowestRank(n);
  return {
    n,
    median: (at(Math.floor((n + 1) / 2)) + at(Math.ceil((n + 1) / 2))) / 2,
    low: low > 0 ? at(low) : null,
    high: low > 0 ? at(n + 1 - low) : null,
    nineInTen: at(Math.ceil(0.9 * n)),
  };
}

/** The largest l with P(Bin(n, ½) < l) ≤ 2.5 %; chances are kept as logarithms, because ½ⁿ is none for a large n. */
function lowestRank(n: number): number {
  let logChance = -n * Math.LN2;
  let below = 0;
  for (let rank = 0; rank <= n; rank++) {
    below += Math.exp(logChance);
    if (below > 0.025) return rank;
    logChance += Math.log((n - rank) / (rank + 1));
  }
  return 0;
}
