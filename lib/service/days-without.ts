import { probit } from 'simple-statistics';

/** How long a piece works, in days from today: its chance of having left its band by each day of a grid, and when its wear is over. */
export type Life = {
  readonly grid: readonly number[];
  readonly chances: readonly number[];
  readonly wornOutAt: number;
  /** From when it is here: 0 or before for a piece at hand, later for one that is ordered and awaited. */
  readonly hereAt: number;
  readonly startedAt: number;
  readonly lifeDays: number;
};

/** What decides a way of going on, days from today. */
export type WayInput = {
  /** Pieces in use or awaited that stand in for each other. */
  readonly olds: readonly Life[];
  readonly orderAt: number;
  readonly makingDays: number;
  readonly makingSpreadPct: number;
  readonly lifeSpreadDays: number;
  readonly next: { readonly grid: readonly number[]; readonly chances: readonly number[]; readonly lifeDays: number };
  /** Days looked at, weekly, from 0. */
  readonly grid: readonly number[];
};

/** What becomes of it. */
export type Way = {
  /** Chance that no piece works on each day of the grid. */
  readonly noneAt: readonly number[];
  /** Days without a working piece up to the end of the grid: the middle, and what nine of ten keep to. */
  readonly daysWithout: { readonly median: number; readonly ninety: number };
  readonly worst: { readonly at: number; readonly chance: number };
  /** Share of the life of the pieces in use that is used when the next one arrives, mean; and pieces' worth of life that is given up. */
  readonly lifeUsed: number;
  readonly piecesGivenUp: number;
  /** Day by which the next piece is more likely than not outgrown or worn out; null beyond what can be seen. */
  readonly lastsUntil: number | null;
};

/** Quantiles of growth, of wear and of making that are summed over, each at the middle of its share. */
const COUNTS = { growth: 60, wear: 9, making: 9 } as const;
/** One-sided 90 % point of the normal distribution. */
const NINETY = 1.2816;

/**
 * Chance of no working piece by day, and days without one, over every pairing of quantiles of growth, wear and making, each pairing as likely.
 *
 * A pairing (u, v, w): each piece works from the day it is here until it is outgrown (quantile u of its chances) or worn out (its end + spread·z(v)); the next
 * one from order + making·(1 + slow)^(z(w)/1.2816) until its own quantile u, or its life from then + spread·z(v). Growth has one quantile for all, wear too: a
 * child that grows fast outgrows both. Days without are those until the next piece is here, and on to the end where it is outgrown before it comes; what
 * follows when the next piece ends is the next order's, so that an early order is not charged for it.
 * Shape: days from today; chances that never fall. Cost: pairings × grid. Source: definition; midpoint rule.
 * Example: one piece worn out at day 10 for certain, the next on day 31 for certain: 21 days without, median and 90 %.
 */
export function wayAhead(input: WayInput): Way {
  const { olds, next, grid } = input;
  const end = grid.at(-1) ?? 0;
  const slow = Math.log(1 + input.makingSpreadPct / 100) / NINETY;
  const none = grid.map(() => 0);
  const without: number[] = [];
  const lasts: number[] = [];
  let used = 0;
  for (const u of shares(COUNTS.growth)) {
    const outgrown = olds.map((life) => quantile(life.grid, life.chances, u));
    const nextOut = quantile(next.grid, next.chances, u);
    for (const v of shares(COUNTS.wear)) {
      const late = input.lifeSpreadDays * probit(v);
      const worn = olds.map((life, index) => worksFor(life, outgrown[index] as number, late));
      const fails = Math.max(0, ...worn.map(({ to }) => to));
      for (const w of shares(COUNTS.making)) {
        const arrives = input.orderAt + input.makingDays * Math.exp(slow * probit(w));
        const nextFails = Math.max(Math.min(nextOut, arrives + next.lifeDays + late), arrives);
        lasts.push(nextFails);
        const helped = nextFails > arrives ? arrives : Number.POSITIVE_INFINITY;
        without.push(daysUncovered(worn, Math.min(helped, end)));
        for (const [index, day] of grid.entries())
          if (day < helped && !worn.some(({ from, to }) => day >= from && day < to)) none[index] = (none[index] as number) + 1;
        used += olds.reduce((sum, life) => sum + shareUsed(life, Math.min(arrives, fails)), 0);
      }
    }
  }
  const pairings = without.length;
  const noneAt = none.map((count) => count / pairings);
  const worst = noneAt.reduce((most, chance, index) => (chance > most.chance ? { at: grid[index] as number, chance } : most), {
    at: grid[0] ?? 0,
    chance: 0,
  });
  const [sorted, ends] = [without.sort((one, other) => one - other), lasts.sort((one, other) => one - other)];
  const middle = ends[Math.floor(pairings / 2)] as number;
  return {
    noneAt,
    daysWithout: { median: sorted[Math.floor(pairings / 2)] as number, ninety: sorted[Math.floor(pairings * 0.9)] as number },
    worst,
    lifeUsed: olds.length > 0 ? used / pairings / olds.length : 0,
    piecesGivenUp: olds.length - used / pairings,
    lastsUntil: Number.isFinite(middle) ? Math.floor(middle) : null,
  };
}

function shares(count: number): number[] {
  return Array.from({ length: count }, (_, index) => (index + 0.5) / count);
}

/** The first day by which a chance is reached, linear between days of the grid; Infinity where it is not within it. */
function quantile(grid: readonly number[], chances: readonly number[], share: number): number {
  const index = chances.findIndex((chance) => chance >= share);
  if (index < 0) return Number.POSITIVE_INFINITY;
  const day = grid[index] as number;
  if (index === 0) return day;
  const [before, at] = [chances[index - 1] as number, chances[index] as number];
  const from = grid[index - 1] as number;
  return from + ((day - from) * (share - before)) / (at - before);
}

type Worn = { readonly from: number; readonly to: number };

/** From when until when a piece works; never less than no time. */
function worksFor({ hereAt, wornOutAt }: Life, outgrownAt: number, late: number): Worn {
  const from = Math.max(hereAt, 0);
  return { from, to: Math.max(Math.min(outgrownAt, wornOutAt + late), from) };
}

/** Days from today to the end on which no piece works. Example: one works for 10 days, another from day 31 on, end on day 40: 21. */
function daysUncovered(worn: readonly Worn[], end: number): number {
  let days = 0;
  let until = 0;
  for (const { from, to } of [...worn].sort((one, other) => one.from - other.from)) {
    days += Math.max(Math.min(from, end) - until, 0);
    until = Math.max(until, to);
  }
  return days + Math.max(end - until, 0);
}

function shareUsed({ startedAt, lifeDays }: Life, until: number): number {
  return Math.min(Math.max((until - startedAt) / lifeDays, 0), 1);
}
