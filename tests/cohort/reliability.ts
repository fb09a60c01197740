import { printTable } from './print-table';

/** A chance that was stated, what a rule without a range says, and how often it came: 0 or 1 of one child, a share of `weight` children. */
export type Stated = { readonly chance: number; readonly sure: boolean; readonly came: number; readonly weight: number };

/** How good stated chances were: Brier scores (0 is best), and the means over all. */
export type Reliability = {
  readonly n: number;
  readonly stated: number;
  readonly came: number;
  readonly brier: number;
  readonly brierSure: number;
  readonly brierBaseRate: number;
  readonly tenths: readonly { readonly n: number; readonly stated: number; readonly came: number }[];
};

/**
 * Reliability by tenths and Brier scores of stated chances, against a rule that says yes or no, and against the base rate for everybody.
 *
 * Brier = mean of (p − o)², o 1 where it came; of a share s among children alike s (1 − p)² + (1 − s) p². Source: Brier 1950, Mon Weather Rev 78:1–3 (from memory).
 * Example: 0.8 stated and it came: 0.04; 0.8 stated and it did not: 0.64.
 */
export function reliabilityOf(all: readonly Stated[]): Reliability {
  const n = all.reduce((sum, one) => sum + one.weight, 0);
  const mean = (of: readonly Stated[], value: (one: Stated) => number) =>
    of.reduce((sum, one) => sum + one.weight * value(one), 0) / of.reduce((sum, one) => sum + one.weight, 0);
  const brier = (chance: (one: Stated) => number) =>
    mean(all, (one) => one.came * (1 - chance(one)) ** 2 + (1 - one.came) * chance(one) ** 2);
  const base = mean(all, (one) => one.came);
  const tenths = Array.from({ length: 10 }, (_, tenth) => {
    const of = all.filter(({ chance }) => Math.min(Math.floor(chance * 10), 9) === tenth);
    const count = of.reduce((sum, one) => sum + one.weight, 0);
    return { n: count, stated: count > 0 ? mean(of, (one) => one.chance) : 0, came: count > 0 ? mean(of, (one) => one.came) : 0 };
  });
  return {
    n,
    stated: mean(all, (one) => one.chance),
    came: base,
    brier: brier((one) => one.chance),
    brierSure: brier((one) => Number(one.sure)),
    brierBaseRate: brier(() => base),
    tenths,
  };
}

/** Prints the table by tenths with the scores under its name. */
export function printReliability(name: string, of: Reliability): void {
  const pct = (share: number) => (100 * share).toFixed(1);
  printTable(
    `${name}: stated ${pct(of.stated)} %, came ${pct(of.came)} %; Brier ${of.brier.toFixed(3)}, yes or no ${of.brierSure.toFixed(3)}, base rate ${of.brierBaseRate.toFixed(3)}`,
    ['tenth', 'n', 'stated %', 'came %'],
    of.tenths.map(({ n, stated, came }, tenth) => [`${tenth * 10}–${tenth * 10 + 10} %`, String(n), pct(stated), pct(came)]),
  );
}
