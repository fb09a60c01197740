/** A stream of made-up chance that is the same for the same seed, on every machine. */
export type SeededRandom = {
  /** From 0 up to 1. */
  readonly uniform: () => number;
  /** Normal, mean 0, SD 1. */
  readonly normal: () => number;
};

/**
 * A stream of chance from a word.
 *
 * FNV-1a turns the word into 32 bits; the stream is the mulberry32 generator (public domain), normals by Box and Muller 1958.
 * Example: the same word gives the same figures in the same order.
 */
export function seededRandom(word: string): SeededRandom {
  let state = 2166136261;
  for (let at = 0; at < word.length; at++) state = Math.imul(state ^ word.charCodeAt(at), 16777619) >>> 0;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  return { uniform, normal };
}
