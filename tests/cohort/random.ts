/** A seeded stream of random numbers (mulberry32, public domain), so that every run sees the same people. */
export type Random = { uniform: () => number; normal: (sd: number) => number; pick: <T>(from: readonly T[]) => T };

export function seeded(seed: number): Random {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
  return {
    uniform,
    normal: (sd) => sd * Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
    pick: (from) => from[Math.floor(uniform() * from.length)] as (typeof from)[number],
  };
}
