import { fleschKincaid } from 'flesch-kincaid';
import { smogFormula } from 'smog-formula';
import { syllable } from 'syllable';
import { germanSyllables, germanWords } from './german-syllables';
import { spanishSyllables, spanishWords } from './spanish-syllables';

/** A counter that remembers: the same few hundred words come back on every page. */
function remembered(count: (word: string) => number): (word: string) => number {
  const known = new Map<string, number>();
  return (word) => {
    const found = known.get(word) ?? count(word);
    known.set(word, found);
    return found;
  };
}
/** A figure is read aloud in about two syllables. */
const syllablesOf = remembered((word) => (/\d/.test(word) ? 2 : syllable(word)));
const spanishSyllablesOf = remembered(spanishSyllables);
const germanSyllablesOf = remembered(germanSyllables);

/** Sentences of a text, one a full stop; figures and fractions as they are said aloud count as one word each. */
function counted(texts: readonly string[]) {
  const sentences = texts.flatMap((text) => text.split(/(?<=[.?!])\s+/)).filter(Boolean);
  const words = sentences.flatMap((sentence) => sentence.match(/[\p{L}’'-]+|\d+/gu) ?? []);
  return { sentences: sentences.length, words };
}

/** First Wiener Sachtextformel and Amstad’s form of Flesch over sentences. */
export function germanFormulas(texts: readonly string[]) {
  const sentences = texts.flatMap((text) => text.split(/(?<=[.?!])\s+/)).filter(Boolean).length;
  const words = texts.flatMap(germanWords);
  const syllables = words.map(germanSyllablesOf);
  const share = (those: number) => (100 * those) / words.length;
  const [many, one] = [share(syllables.filter((n) => n >= 3).length), share(syllables.filter((n) => n === 1).length)];
  const [long, length] = [share(words.filter((word) => word.length > 6).length), words.length / sentences];
  return {
    wiener: 0.1935 * many + 0.1672 * length + 0.1297 * long - 0.0327 * one - 0.875,
    amstad: 180 - length - (58.5 * syllables.reduce((sum, n) => sum + n, 0)) / words.length,
  };
}

/** Szigriszt-Pazos and Fernández-Huerta over sentences. */
export function spanishFormulas(texts: readonly string[]) {
  const sentences = texts.flatMap((text) => text.split(/(?<=[.?!])\s+/)).filter(Boolean).length;
  const words = texts.flatMap(spanishWords);
  const syllables = words.reduce((sum, word) => sum + spanishSyllablesOf(word), 0);
  const [perWord, perSentence] = [syllables / words.length, words.length / sentences];
  return { szigriszt: 206.835 - 62.3 * perWord - perSentence, huerta: 206.84 - 60 * perWord - 1.02 * perSentence };
}

/** Flesch–Kincaid grade and SMOG over sentences. */
export function englishFormulas(texts: readonly string[]) {
  const { sentences, words } = counted(texts);
  const syllables = words.map(syllablesOf);
  return {
    grade: fleschKincaid({ sentence: sentences, word: words.length, syllable: syllables.reduce((sum, one) => sum + one, 0) }),
    smog: smogFormula({ sentence: sentences, polysillabicWord: syllables.filter((one) => one >= 3).length }),
  };
}
