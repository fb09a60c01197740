import type { StudyPlan, StudyTurn } from './study-plan';

const STEP = 0x6d2b79f5;

/**
 * The order in which one measurer tapes, drawn from the seed of the plan: every limb once, then every limb again.
 *
 * Each round is a shuffle of its own (Fisher and Yates, from the last place down), so that between two tapings of a limb the others lie; a round never begins with the limb
 * that the one before ended with. Every measurer has an order of their own, and the same seed gives the same orders.
 * Shape: a plan, the place of a measurer in it. Source: Durstenfeld 1964, algorithm 235; the numbers are mulberry32 (public domain), no secret hangs on them.
 * Example: five limbs, two repeats: ten turns, the first five of repeat 0.
 */
export function studyOrder(plan: Pick<StudyPlan, 'limbs' | 'repeats' | 'seed'>, measurer: number): readonly StudyTurn[] {
  const draw = numbersFrom((plan.seed ^ Math.imul(measurer + 1, 0x9e3779b1)) >>> 0);
  const turns: StudyTurn[] = [];
  for (let repeat = 0; repeat < plan.repeats; repeat++) {
    const round = plan.limbs.map((_, limb) => limb);
    for (let last = round.length - 1; last > 0; last--) swap(round, last, Math.floor(draw() * (last + 1)));
    if (round.length > 1 && round[0] === turns.at(-1)?.limb) swap(round, 0, 1 + Math.floor(draw() * (round.length - 1)));
    turns.push(...round.map((limb) => ({ measurer, limb, repeat })));
  }
  return turns;
}

function swap(round: number[], one: number, other: number): void {
  [round[one], round[other]] = [round[other] as number, round[one] as number];
}

function numbersFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + STEP) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}
