import { REACH_95 } from '../statistics/reach-95';
import { type CountedDays, FEWEST_FOR_A_MIDDLE } from './days-spread';
import { proportionRange } from './proportion-range';
import type { GivenAgainst, OutlookCame, VerdictCame } from './what-came';

/** What came of given answers of a period, counted where they are kept (`answer_outcome`). */
export type RightCounts = {
  /** By what was given and what came. `stated` and `square` are sums over the rows with a stated probability and a decided change: p, and (p − o)². */
  readonly verdicts: readonly {
    readonly against: GivenAgainst;
    readonly word: string;
    readonly came: VerdictCame;
    readonly tenth: number | null;
    readonly changed: boolean | null;
    readonly n: number;
    readonly stated: number;
    readonly square: number;
  }[];
  /** By how many hundredths of an SD the change measured next missed the given one. */
  readonly misses: readonly { readonly against: GivenAgainst; readonly miss: number; readonly n: number }[];
  readonly outlooks: readonly {
    readonly came: OutlookCame;
    readonly earlyKept: boolean | null;
    readonly daysOff: number | null;
    readonly n: number;
  }[];
};

/** So many of so many with Wilson's range, against a share that was stated; `isOff` where that lies outside the range. */
export type AgainstStated = {
  readonly some: number;
  readonly all: number;
  readonly share: number;
  readonly low: number;
  readonly high: number;
  readonly stated: number;
  readonly isOff: boolean;
};

/** How many 95 % ranges held; where they are off, the factor on the variance with which 95 in 100 would have. */
export type RangesHeld = AgainstStated & { readonly of: GivenAgainst; readonly scale: number | null };

/** What came of the verdicts of one rule (against what) and word; `confirmed` of those decided. */
export type VerdictsCame = {
  readonly against: GivenAgainst;
  readonly word: string;
  readonly confirmed: number;
  readonly contradicted: number;
  readonly open: number;
  readonly range: { readonly share: number; readonly low: number; readonly high: number } | null;
};

/** Whether what was given turned out right. */
export type RightFigures = {
  readonly ranges: readonly RangesHeld[];
  readonly verdicts: readonly VerdictsCame[];
  /** Chances stated of a change, by tenths. */
  readonly tenths: readonly (AgainstStated & { readonly tenth: number })[];
  /** Mean of (p − o)², and what saying the base rate to everybody would have had; null with no case. */
  readonly brier: { readonly n: number; readonly score: number; readonly ofBaseRate: number } | null;
  readonly outlooks: { readonly [came in OutlookCame]: number };
  readonly earlyKept: AgainstStated | null;
  readonly daysOff: CountedDays;
};

/** What the early day of a piece promises: nine of ten keep to it. Source: `outgrowDate`. */
const EARLY_KEPT = 0.9;
const HELD = 0.95;
/** Hundredths of an SD within which a 95 % range holds. */
const MOST_MISS = Math.round(100 * REACH_95);

/**
 * Ranges, verdicts, chances and dates that were given against what came of them.
 *
 * Shares have Wilson's range; a rule is *off* from twenty cases on where the share it stated lies outside that range. The scale that is learnt where ranges are off: (q / 1.96)², q the
 * ⌈0.95 n⌉-th smallest miss in SDs, so that 95 in 100 of these would have been held. Brier: mean of (p − o)² over answers with a stated probability and a decided change, o 1 where it came;
 * of the base rate b: b (1 − b). Shape: counts; a rule without a case is left out. Source: Brier 1950, Mon Weather Rev 78:1 (from memory); Wilson 1927.
 * Example: 100 ranges of which 85 held and the 95th smallest miss is 2.94 SD: off, scale (2.94/1.96)² = 2.25.
 */
export function rightFigures({ verdicts, misses, outlooks }: RightCounts): RightFigures {
  const decided = verdicts.filter(({ tenth, changed }) => tenth !== null && changed !== null);
  const n = total(decided);
  const base = total(decided.filter(({ changed }) => changed)) / n;
  const judged = outlooks.filter(({ earlyKept }) => earlyKept !== null);
  const counted = (came: OutlookCame) => total(outlooks.filter((row) => row.came === came));
  return {
    ranges: (['baseline', 'last'] as const).flatMap((of) => heldOf(of, misses)),
    verdicts: verdictsCame(verdicts),
    tenths: Array.from({ length: 10 }, (_, tenth) => tenth).flatMap((tenth) => {
      const rows = decided.filter((row) => row.tenth === tenth);
      const against = againstStated(total(rows.filter(({ changed }) => changed)), total(rows), sum(rows, 'stated') / total(rows));
      return against ? [{ tenth, ...against }] : [];
    }),
    brier: n > 0 ? { n, score: sum(decided, 'square') / n, ofBaseRate: base * (1 - base) } : null,
    outlooks: {
      'before-early': counted('before-early'),
      between: counted('between'),
      after: counted('after'),
      'not-yet': counted('not-yet'),
    },
    earlyKept: againstStated(total(judged.filter(({ earlyKept }) => earlyKept)), total(judged), EARLY_KEPT) ?? null,
    daysOff: outlooks.flatMap(({ daysOff, n: cases }) => (daysOff === null ? [] : [{ days: daysOff, n: cases }])),
  };
}

function heldOf(of: GivenAgainst, misses: RightCounts['misses']): RangesHeld[] {
  const rows = misses
    .filter(({ against }) => against === of)
    .map(({ miss, n }) => ({ miss: Math.abs(miss), n }))
    .sort((one, other) => one.miss - other.miss);
  const all = total(rows);
  const held = againstStated(total(rows.filter(({ miss }) => miss <= MOST_MISS)), all, HELD);
  if (!held) return [];
  let seen = 0;
  const reach = rows.find(({ n }) => {
    seen += n;
    return seen >= Math.ceil(HELD * all);
  });
  return [{ of, ...held, scale: held.isOff && reach ? (reach.miss / MOST_MISS) ** 2 : null }];
}

function verdictsCame(verdicts: RightCounts['verdicts']): VerdictsCame[] {
  const kinds = new Map<string, RightCounts['verdicts'][number][]>();
  for (const row of verdicts) {
    if (row.came === 'no-claim') continue;
    const key = `${row.against} ${row.word}`;
    kinds.set(key, [...(kinds.get(key) ?? []), row]);
  }
  return [...kinds]
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .flatMap(([, rows]) => {
      const [first] = rows;
      const of = (came: VerdictCame) => total(rows.filter((row) => row.came === came));
      const [confirmed, contradicted] = [of('confirmed'), of('contradicted')];
      const range = proportionRange(confirmed, confirmed + contradicted) ?? null;
      return first ? [{ against: first.against, word: first.word, confirmed, contradicted, open: of('open'), range }] : [];
    });
}

function againstStated(some: number, all: number, stated: number): AgainstStated | undefined {
  const range = proportionRange(some, all);
  return range && { some, all, ...range, stated, isOff: all >= FEWEST_FOR_A_MIDDLE && (stated < range.low || stated > range.high) };
}

function total(rows: readonly { readonly n: number }[]): number {
  return rows.reduce((all, { n }) => all + n, 0);
}

function sum(rows: RightCounts['verdicts'], of: 'stated' | 'square'): number {
  return rows.reduce((all, row) => all + row[of], 0);
}
