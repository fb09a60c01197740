/** Chances of S, S = index − most, when every order of the values is equally likely. */
type NullOfS = { readonly most: number; readonly chance: Float64Array };

const untied = new Map<number, NullOfS>();

/**
 * The exact chance that |S| is at least a size, over all orders of the values, ties in values and times kept.
 *
 * Without ties: S = n(n−1)/2 − 2·inversions, inversions counted by c(n,k) = Σ c(n−1,k−j), j = 0 … n−1 (Mahonian numbers).
 * With ties: every way of handing the values to the times, counted one time after another; ways that leave the same values
 * are counted together.
 * Shape: two lists of one length, meant for under 10 values; the size is not negative.
 * Source: Kendall 1975; MacMahon 1916, Combinatory Analysis (inversions).
 * Example: 5 values without ties: |S| ≥ 10 has chance 2/120 = 0.0167.
 */
export function exactKendallTail(times: readonly number[], values: readonly number[], size: number): number {
  const noTies = new Set(times).size === times.length && new Set(values).size === values.length;
  const { most, chance } = noTies ? untiedNull(values.length) : tiedNull(times, values);
  let tail = 0;
  for (let index = 0; index < chance.length; index++) {
    if (Math.abs(index - most) >= size) tail += chance[index] as number;
  }
  return Math.min(1, tail);
}

function untiedNull(n: number): NullOfS {
  const known = untied.get(n);
  if (known) return known;
  let inversions = Float64Array.of(1);
  for (let size = 2; size <= n; size++) {
    const next = new Float64Array(inversions.length + size - 1);
    for (let k = 0; k < inversions.length; k++) {
      for (let j = 0; j < size; j++) next[k + j] = (next[k + j] as number) + (inversions[k] as number) / size;
    }
    inversions = next;
  }
  const most = (n * (n - 1)) / 2;
  const chance = new Float64Array(2 * most + 1);
  for (let k = 0; k < inversions.length; k++) chance[2 * (most - k)] = inversions[k] as number;
  const fresh = { most, chance };
  untied.set(n, fresh);
  return fresh;
}

/** Counts of equal things in rising order: 5 7 7 9 is [1, 2, 1]. */
function groupSizes(figures: readonly number[]): number[] {
  const sizes: number[] = [];
  const sorted = [...figures].sort((a, b) => a - b);
  sorted.forEach((figure, index) => {
    if (index > 0 && figure === sorted[index - 1]) sizes[sizes.length - 1] = (sizes[sizes.length - 1] ?? 0) + 1;
    else sizes.push(1);
  });
  return sizes;
}

/**
 * Times are taken from the last to the first. What is left of the values is the state; giving the last time a set of them
 * adds, for each, the smaller values left less the larger ones: pairs that rise less pairs that fall.
 */
function tiedNull(times: readonly number[], values: readonly number[]): NullOfS {
  const most = (values.length * (values.length - 1)) / 2;
  let states = new Map<string, { left: number[]; chance: Float64Array }>();
  const start = groupSizes(values);
  const none = new Float64Array(2 * most + 1);
  none[most] = 1;
  states.set(start.join(), { left: start, chance: none });
  for (const groupSize of groupSizes(times).reverse()) {
    const next = new Map<string, { left: number[]; chance: Float64Array }>();
    for (const { left, chance } of states.values()) {
      const total = choose(sumOf(left), groupSize);
      for (const taken of handfuls(left, groupSize)) {
        const remaining = left.map((count, index) => count - (taken[index] ?? 0));
        const ways = taken.reduce((product, count, index) => product * choose(left[index] ?? 0, count), 1);
        addShifted(next, remaining, chance, gain(taken, remaining), ways / total);
      }
    }
    states = next;
  }
  const [end] = states.values();
  return { most, chance: end ? end.chance : none };
}

function addShifted(
  into: Map<string, { left: number[]; chance: Float64Array }>,
  left: number[],
  chance: Float64Array,
  shift: number,
  weight: number,
): void {
  const key = left.join();
  let state = into.get(key);
  if (!state) {
    state = { left, chance: new Float64Array(chance.length) };
    into.set(key, state);
  }
  for (let index = 0; index < chance.length; index++) {
    const had = chance[index] as number;
    if (had !== 0) state.chance[index + shift] = (state.chance[index + shift] as number) + had * weight;
  }
}

/** Pairs of a taken value with the values left for earlier times: smaller ones rise, larger ones fall. */
function gain(taken: readonly number[], remaining: readonly number[]): number {
  let sum = 0;
  taken.forEach((count, at) => {
    remaining.forEach((others, index) => {
      sum += count * others * Math.sign(at - index);
    });
  });
  return sum;
}

/** Every way of taking so many things from groups of equal things. */
function handfuls(left: readonly number[], size: number): number[][] {
  const [first, ...rest] = left;
  if (first === undefined) return size === 0 ? [[]] : [];
  const ways: number[][] = [];
  for (let count = Math.min(first, size); count >= 0; count--) {
    for (const more of handfuls(rest, size - count)) ways.push([count, ...more]);
  }
  return ways;
}

function choose(n: number, k: number): number {
  let ways = 1;
  for (let step = 1; step <= k; step++) ways = (ways * (n - k + step)) / step;
  return ways;
}

function sumOf(counts: readonly number[]): number {
  return counts.reduce((total, count) => total + count, 0);
}
