import { randomInt } from 'node:crypto';

const CONSONANTS = 'bdfghjklmnprstv';
const VOWELS = 'aeiou';
const GROUPS = 6;

/**
 * A passphrase to read out over a desk: six groups of two syllables, as in `tabi-moke-lura-sofe-duni-kape`.
 *
 * Each syllable is one of 75, so twelve of them are 74 bits. Source of the count: 12 × log2(15 × 5).
 */
export function passphrase(): string {
  const syllable = () => `${CONSONANTS[randomInt(CONSONANTS.length)]}${VOWELS[randomInt(VOWELS.length)]}`;
  return Array.from({ length: GROUPS }, () => syllable() + syllable()).join('-');
}
