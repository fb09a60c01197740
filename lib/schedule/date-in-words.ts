import { limbInWords } from '../ladder/limb';
import { limitInWords } from '../limits/limit-in-words';
import type { Policy } from '../limits/policy';
import { capitalized } from '../units/capitalized';
import type { ComputedDate, DateKind, DateSource } from './scheduled-date';

const WORDS: Readonly<Record<DateKind, (limb: string, piece: string) => string>> = {
  visit: () => 'Next visit',
  remeasure: (limb) => `Measure the ${limb} for the next order`,
  order: (limb) => `Order the next piece for the ${limb}`,
  delivery: (limb, piece) => `${piece} is expected, ${limb}`,
  'first-fit': (limb, piece) => `First-fit check of ${piece}, ${limb}`,
  call: (limb, piece) => `Call about the wear-in of ${piece}, ${limb}`,
  'end-of-life': (limb, piece) => `Replacement of ${piece} due, ${limb}`,
  ask: () => 'Ask whether care goes on',
  referral: () => 'Ask for the next referral',
  booking: () => 'Visit booked',
  'not-said': () => 'Say whether the booked visit was kept',
  missed: () => 'Call about a missed visit',
  'call-back': () => 'Call back: the family asks to be rung',
  reply: () => 'Look at what the family sent',
};

/** What a date is for, in words. Example: `First-fit check of piece 4, right leg`. */
export function dateInWords({ kind, limb, piece }: Pick<ComputedDate, 'kind' | 'limb' | 'piece'>): string {
  const words = WORDS[kind](limb ? limbInWords(limb.limb, limb.side) : 'limb', `piece ${piece ?? ''}`);
  return capitalized(words);
}

/** Where an interval comes from, with the clinic's figure and the kind of its source. */
export function sourceInWords(source: DateSource, policy: Policy): string {
  if (source === 'piece') return 'Days of making and of wear: as written with the piece.';
  return limitInWords(source, policy);
}
