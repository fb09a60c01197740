import { besideAim } from './aims';

/** What some work took: by the clock and in processor time of this process, seconds. On PostgreSQL the server’s own processor time is not among it. */
export type Spent = { readonly clock: number; readonly busy: number };

export const NOTHING: Spent = { clock: 0, busy: 0 };

export function plus(one: Spent, other: Spent): Spent {
  return { clock: one.clock + other.clock, busy: one.busy + other.busy };
}

/** What some work takes. */
export function timed(work: () => void): Spent {
  const end = begin();
  work();
  return end();
}

/** What some work takes which waits for others. */
export async function seconds(work: () => Promise<unknown>): Promise<Spent> {
  const end = begin();
  await work();
  return end();
}

function begin(): () => Spent {
  const start = process.hrtime.bigint();
  const before = process.cpuUsage();
  return () => {
    const { user, system } = process.cpuUsage(before);
    return { clock: Number(process.hrtime.bigint() - start) / 1e9, busy: (user + system) / 1e6 };
  };
}

/** The one in the middle. */
export function median(times: readonly number[]): number {
  return quantile(times, 0.5);
}

/** The time that this share of all times does not pass. */
export function quantile(times: readonly number[], share: number): number {
  const sorted = [...times].sort((one, other) => one - other);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
}

/**
 * One line of the bench: what was compared, its size, both times, and the ratio, which is all that counts, beside its aim where there is one;
 * then the same in processor time, which other work on the machine changes less.
 */
export function line(what: string, size: string, spent: Spent, floor: string, floorSpent: Spent, aim?: number): void {
  const ratio = besideAim(what, spent.clock / floorSpent.clock, aim);
  console.log(`${what} (${size}): ${spent.clock.toFixed(2)} s against ${floorSpent.clock.toFixed(2)} s for ${floor}: ${ratio}`);
  const busy = (spent.busy / floorSpent.busy).toFixed(2);
  console.log(`  processor time: ${spent.busy.toFixed(2)} s against ${floorSpent.busy.toFixed(2)} s: ${busy} times`);
}
