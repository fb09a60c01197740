/**
 * Whether two names of measurers mean one person: the same words, or initials of the other's words.
 *
 * Case, full stops and blanks do not count. Initials are one word of at most four letters; a first name may be initials in a longer name.
 * Two people of one clinic with the same initials cannot be told apart by initials: write the name.
 * Shape: names as typed, or null; an unknown person is nobody's equal. Source: common practice of charts.
 * Example: `RA`, `R. Adeyemi` and `Rosa Adeyemi` are one; `R. Adeyemi` and `R. Alvarez` are two.
 */
export function isSamePerson(one: string | null, other: string | null): boolean {
  if (one === null || other === null) return false;
  const [first, second] = [wordsOf(one), wordsOf(other)];
  if (first.length === 0 || second.length === 0) return false;
  if (first.join(' ') === second.join(' ')) return true;
  if (first.length === 1 && second.length > 1) return isInitialsOf(first[0] as string, second);
  if (second.length === 1 && first.length > 1) return isInitialsOf(second[0] as string, first);
  return first.length > 1 && first.length === second.length && first.every((word, index) => isShortFor(word, second[index] as string));
}

/**
 * The measurer on record that a name is taken for although it is written otherwise; none where it stands so already, or two would fit.
 *
 * Example: `RA` beside `R. Adeyemi` and `S. Brandt` gives `R. Adeyemi`; beside `R. Adeyemi` and `R. Alvarez` none.
 */
export function takenFor(name: string, onRecord: readonly string[]): string | undefined {
  const typed = name.trim();
  if (onRecord.includes(typed)) return undefined;
  const alike = onRecord.filter((one) => isSamePerson(typed, one));
  return alike.length === 1 ? alike[0] : undefined;
}

function wordsOf(name: string): string[] {
  return name
    .toLowerCase()
    .split(/[\s.]+/)
    .filter((word) => word !== '');
}

function isInitialsOf(word: string, words: readonly string[]): boolean {
  return word.length <= 4 && word === words.map((one) => one[0]).join('');
}

function isShortFor(one: string, other: string): boolean {
  return one === other || (one.length === 1 && other.startsWith(one)) || (other.length === 1 && one.startsWith(other));
}
