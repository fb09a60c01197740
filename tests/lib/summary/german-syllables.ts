const VOWELS = 'aeiouyäöü';
/** Two letters that are one sound: diphthongs, long ie, doubled vowels. */
const ONE_SOUND = ['ei', 'ai', 'au', 'äu', 'eu', 'ie', 'aa', 'ee', 'oo', 'ey', 'ay'];

/**
 * Syllables of a German word: its vowels, of which two that are one sound count once; the u of qu is no vowel.
 *
 * Source: Amtliche Regeln der deutschen Rechtschreibung (2018), § 1 and § 107: letters of vowels, and a syllable for each vowel or diphthong.
 * It errs towards more syllables, that is towards harder.
 */
export function germanSyllables(word: string): number {
  const letters = word.toLowerCase().replace(/qu/g, 'q');
  let count = 0;
  for (let at = 0; at < letters.length; at++) {
    if (!VOWELS.includes(letters[at] ?? '')) continue;
    count++;
    if (ONE_SOUND.includes(letters.slice(at, at + 2))) at++;
  }
  return Math.max(count, 1);
}

/** Words of a text; figures are left out, as they are for Spanish. */
export function germanWords(text: string): string[] {
  return text.match(/[a-zäöüß]+/gi) ?? [];
}
