import 'server-only';
import { guessesOf } from './guesses-of';
import { LONGEST, SHORTEST } from './password-lengths';

/** Guesses that a password must withstand: the estimator's highest class, offline and slowly hashed. Clinic default. */
const FEWEST_GUESSES = 1e10;

/** Characters that must be left beside the words others know. */
const LEFT_BESIDE_OWN = 8;

/**
 * Why a password cannot be taken, or undefined for one that can.
 *
 * By its length, by the guesses it withstands (words, names, earlier leaks, rows of keys, dates and repeats are tried first), and by being
 * little more than `ownWords` (the clinic, the person, their e-mail). Any characters will do, spaces too, and no kind of them is asked for.
 * Source: NIST SP 800-63B-4 (2025), section 3.1.1.2. Example: `Harbour Lane 2026` is refused in a clinic named Harbour Lane.
 */
export async function passwordRefusal(password: string, ownWords: readonly string[]): Promise<string | undefined> {
  const length = [...password].length;
  if (length < SHORTEST) return `At least ${SHORTEST} characters, please. Four or five words make a good one.`;
  if (length > LONGEST) return `At most ${LONGEST} characters, please.`;
  if (isMostlyOwn(password.toLowerCase(), ownWords))
    return 'This is mostly a name that others know: the clinic’s, yours, or your e-mail. Choose other words.';
  if ((await guessesOf(password, ownWords)) < FEWEST_GUESSES)
    return 'This is made of what is tried first: common passwords, rows of keys, dates or repeats. Choose another, for example four words that do not belong together.';
  return undefined;
}

/** The words that a password of this person may not live on. */
export function ownWordsOf(person: { readonly name: string; readonly email: string }, clinicName: string): readonly string[] {
  return `rungwise ${clinicName} ${person.name} ${person.email}`.toLowerCase().match(/[\p{L}\p{N}]{3,}/gu) ?? [];
}

/** True of a text that holds own words and little else. */
function isMostlyOwn(text: string, ownWords: readonly string[]): boolean {
  const left = ownWords.reduce((rest, word) => rest.replaceAll(word, ''), text);
  return left !== text && left.replace(/[^\p{L}\p{N}]/gu, '').length < LEFT_BESIDE_OWN;
}
