import { besideAim } from './aims';

/** Seconds that some work took, by the process's own clock. */
export function timed(work: () => void): number {
  const start = process.hrtime.bigint();
  work();
  return Number(process.hrtime.bigint() - start) / 1e9;
}

/** Seconds that some work took which waits for others. */
export async function seconds(work: () => Promise<unknown>): Promise<number> {
  const start = process.hrtime.bigint();
  await work();
  return Number(process.hrtime.bigint() - start) / 1e9;
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

/** One line of the bench: what was compared, its size, both times, and the ratio, which is all that counts, beside its aim where there is one. */
export function line(what: string, size: string, seconds: number, floor: string, floorSeconds: number, aim?: number): void {
  const ratio = besideAim(what, seconds / floorSeconds, aim);
  console.log(`${what} (${size}): ${seconds.toFixed(2)} s against ${floorSeconds.toFixed(2)} s for ${floor}: ${ratio}`);
}
