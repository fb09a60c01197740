import { limbInWords, placeInWords } from '../ladder/limb';
import type { FoundChange, JudgedChange } from '../trend/judged-change';
import { showDay } from '../units/calendar-day';
import { pct, signedPct } from './show-figures';

/** Where a limb changed, in words: `below the knee`, `in its near half`; empty where it was the whole limb. */
export function partInWords({ part, at }: Pick<FoundChange, 'part' | 'at'>): string {
  if (part === 'whole') return '';
  if (at) return `${part === 'far' ? 'below' : 'above'} the ${placeInWords(at)}`;
  return `in its ${part} half`;
}

/** Words for probabilities, each from a share on. Source: IPCC 2010, guidance note on uncertainties (from memory). */
const LIKELIHOOD = [
  [0.99, 'almost certain'],
  [0.9, 'very likely'],
  [0.66, 'likely'],
  [0.33, 'about as likely as not'],
  [0.1, 'unlikely'],
  [0, 'very unlikely'],
] as const;

/** A probability in words and number: `very likely (97 %)`. */
export function likelihoodInWords(probability: number): string {
  const words = LIKELIHOOD.find(([from]) => probability >= from)?.[1] ?? 'very unlikely';
  const number = probability > 0.99 ? 'over 99' : probability < 0.01 ? 'under 1' : (probability * 100).toFixed(0);
  return `${words} (${number}\u202f%)`;
}

/** How much, with its 95 % range: `+5.1 % (3.4 % to 6.9 %)`. */
export function sizeInWords({ ratio, sd }: Pick<FoundChange, 'ratio' | 'sd'>): string {
  const [low, high] = [-1.96, 1.96].map((sds) => signedPct(ratio * Math.exp(sds * sd) - 1));
  return `${signedPct(ratio - 1)} (${low} to ${high})`;
}

/**
 * What the joint model of all visits says of a change, in two short sentences: how likely, since when, where, by how much; and the smallest new
 * change that would be said today.
 *
 * Shape: a judged change; undefined where nothing can be expected of the limb.
 * Example: "A real change is very likely (97 %): below the knee +5.1 % (+3.4 % to +6.9 %) of girth, since 3 Mar 2026. …"
 */
export function courseSentence({ probability, found, change, smallestSaid }: JudgedChange): string | undefined {
  if (probability === undefined) return undefined;
  const { ladder, visit } = change.later;
  const smallest =
    smallestSaid === undefined
      ? ''
      : ` Of the ${limbInWords(ladder.limb, ladder.side)} a new change of ${pct(smallestSaid)} of girth would show on ${showDay(visit.day)}.`;
  if (!found) return `A change beyond what is expected is ${likelihoodInWords(probability)}.${smallest}`;
  const where = partInWords(found) || `of the whole ${ladder.limb}`;
  return `A change beyond what is expected is ${likelihoodInWords(probability)}: ${where} ${sizeInWords(found)} of girth, first seen on ${showDay(found.since)}.${smallest}`;
}
