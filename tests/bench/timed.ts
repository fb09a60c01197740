/** Seconds that some work took, by the process's own clock. */
export function timed(work: () => void): number {
  const start = process.hrtime.bigint();
  work();
  return Number(process.hrtime.bigint() - start) / 1e9;
}

/** One line of the bench: what was compared, its size, both times, and the ratio, which is all that counts. */
export function line(what: string, size: string, seconds: number, floor: string, floorSeconds: number): void {
  console.log(
    `${what} (${size}): ${seconds.toFixed(2)} s against ${floorSeconds.toFixed(2)} s for ${floor}: ${(seconds / floorSeconds).toFixed(2)} times`,
  );
}
