const STRONG = 'aeoáéóíú';
const VOWELS = 'aeiouáéíóúü';

/**
 * Syllables of a Spanish word: groups of vowels, two where strong vowels meet or a weak one carries the accent (hiatus).
 * The u of que, qui, gue, gui is silent. Source: Real Academia Española, Ortografía (2010), diphthong and hiatus.
 */
export function spanishSyllables(word: string): number {
  const letters = word
    .toLowerCase()
    .replace(/q[u](?=[eiéí])/g, 'q')
    .replace(/g[u](?=[eiéí])/g, 'g')
    .replace(/y$/, 'i');
  let count = 0;
  let before = '';
  for (const letter of letters) {
    if (VOWELS.includes(letter) && !(VOWELS.includes(before) && before !== '' && !(STRONG.includes(before) && STRONG.includes(letter))))
      count++;
    before = letter;
  }
  return Math.max(count, 1);
}

/** Words of a text; a figure counts as one word of two syllables, as it is read aloud in short. */
export function spanishWords(text: string): string[] {
  return text.match(/[a-záéíóúüñ]+/gi) ?? [];
}
