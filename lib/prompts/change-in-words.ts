import { placeInWords } from '../ladder/limb';
import { REACH_95 } from '../statistics/reach-95';
import type { FoundChange, JudgedChange } from '../trend/judged-change';
import { showDay } from '../units/calendar-day';
import { capitalized } from '../units/capitalized';
import { pct, signedPct } from './show-figures';

/** Where a limb changed, in words: `below the knee`, `in its near half`; empty where it was the whole limb. */
export function partInWords({ part, at }: Pick<FoundChange, 'part' | 'at'>): string {
  if (part === 'whole') return '';
  if (at) return `${part === 'far' ? 'below' : 'above'} the ${placeInWords(at)}`;
  return `in its ${part} half`;
}

/** How sure, from a share on: of a change that is said, and of none beyond what is expected (a child's limb grows all the same). Bounds: IPCC 2010, guidance note on uncertainties (from memory). */
const HOW_SURE = [
  [0.99, 'almost certain', 'almost certainly as expected'],
  [0.9, 'very likely', 'very likely as expected'],
  [0.66, 'likely', 'probably as expected'],
  [0, 'possible', 'more likely than not as expected'],
] as const;

/**
 * How sure a change is, in words and number: `almost certain, 99 in 100`; of none `very likely as expected, 93 in 100`; where the verdict cannot be
 * told `undecided, 40 in 100 for a change by the figures as recorded`. The word is that of the number shown, so that the two never differ.
 */
export function howSureInWords({
  probability,
  found,
  verdict,
}: Pick<JudgedChange, 'probability' | 'found' | 'verdict'>): string | undefined {
  if (probability === undefined) return undefined;
  if (verdict === 'cannot-tell') return `undecided, ${(probability * 100).toFixed(0)} in 100 for a change by the figures as recorded`;
  return found ? sureOfChange(probability) : sureOfNone(probability);
}

/** A probability of a change in words and number, where one is said: `likely, 78 in 100`. */
export function sureOfChange(probability: number): string {
  return `${wordsOf(probability)[1]}, ${inHundred(probability)}`;
}

/** The same where none is said: of a change of 7 in 100 `very likely as expected, 93 in 100`. */
export function sureOfNone(probability: number): string {
  return `${wordsOf(1 - probability)[2]}, ${inHundred(1 - probability)}`;
}

function wordsOf(share: number): (typeof HOW_SURE)[number] {
  return HOW_SURE.find(([from]) => Math.round(share * 100) >= from * 100) ?? HOW_SURE[3];
}

/** `78 in 100`, and `over 99 in 100` where rounding would say certain. */
export function inHundred(share: number): string {
  return `${share > 0.99 ? 'over 99' : (share * 100).toFixed(0)} in 100`;
}

/** Where and by how much, with the 95 % range: `below the knee +5.1 % (+3.4 % to +6.9 %)`. */
export function whereInWords(found: FoundChange, limb: string): string {
  const [low, high] = [-REACH_95, REACH_95].map((sds) => signedPct(found.ratio * Math.exp(sds * found.sd) - 1));
  return `${partInWords(found) || `the whole ${limb}`} ${signedPct(found.ratio - 1)} (${low} to ${high})`;
}

/** When it came: `between 17 Aug 2026 and 28 Sep 2026`, the last visit without it and the first with it. */
export function whenInWords({ before, since }: FoundChange): string {
  return `between ${showDay(before)} and ${showDay(since)}`;
}

/** `A new change of girth under 3.6 % would not show on 28 Sep 2026.` */
export function smallestInWords({ smallestSaid, change }: JudgedChange): string | undefined {
  return smallestSaid === undefined
    ? undefined
    : `A new change of girth under ${pct(smallestSaid)} would not show on ${showDay(change.later.visit.day)}.`;
}

/**
 * What the joint model of all visits says of a change, in one sentence: how sure, where, by how much, since when.
 *
 * Shape: a judged change; undefined where nothing can be expected of the limb.
 * Example: "Change: almost certain, 99 in 100; below the knee +5.1 % (+3.4 % to +6.9 %) of girth, between 17 Aug 2026 and 28 Sep 2026."
 */
export function courseSentence(judged: JudgedChange): string | undefined {
  const sure = howSureInWords(judged);
  if (!sure) return undefined;
  const { found, change } = judged;
  if (!found) return `${capitalized(sure)}.`;
  return `Change beyond what is expected: ${sure}; ${whereInWords(found, change.later.ladder.limb)} of girth, ${whenInWords(found)}.`;
}
