import { isCommonPassword } from './common-passwords';
import { LONGEST, SHORTEST_ALONE, SHORTEST_WITH_FACTOR } from './password-lengths';

/** Rows of keys and of the alphabet, each way: nobody has to guess where they go on. */
const RUNS = ['abcdefghijklmnopqrstuvwxyz', '01234567890123456789', '1234567890', 'qwertyuiopasdfghjklzxcvbnm'].flatMap((run) => [
  run + run,
  [...(run + run)].reverse().join(''),
]);

/**
 * Why a password cannot be taken, or undefined for one that can.
 *
 * By its length, and by being known: on the list of common ones, one word over and over, a run of keys, or little more than `ownWords`
 * (the clinic, the person, their e-mail). Any characters will do, spaces too, and no kind of them is asked for.
 * Source: NIST SP 800-63B-4 (2025), section 3.1.1.2. Example: `Harbour Lane 2026` is refused in a clinic named Harbour Lane.
 */
export function passwordRefusal(password: string, hasFactor: boolean, ownWords: readonly string[]): string | undefined {
  const length = [...password].length;
  if (length < (hasFactor ? SHORTEST_WITH_FACTOR : SHORTEST_ALONE)) return tooShort(hasFactor);
  if (length > LONGEST) return `At most ${LONGEST} characters, please.`;
  const text = password.toLowerCase();
  if (isCommonPassword(text) || isOverAndOver(text) || RUNS.some((run) => run.includes(text)))
    return 'Many people use this password, so it is tried first. Choose another, for example four words that do not belong together.';
  if (isMostlyOwn(text, ownWords))
    return 'This is mostly a name that others know: the clinic’s, yours, or your e-mail. Choose other words.';
  return undefined;
}

/** The words that a password of this person may not live on. */
export function ownWordsOf(person: { readonly name: string; readonly email: string }, clinicName: string): readonly string[] {
  return `rungwise ${clinicName} ${person.name} ${person.email}`.toLowerCase().match(/[\p{L}\p{N}]{3,}/gu) ?? [];
}

function tooShort(hasFactor: boolean): string {
  if (hasFactor) return `At least ${SHORTEST_WITH_FACTOR} characters, please.`;
  return `At least ${SHORTEST_ALONE} characters, please; with a second factor ${SHORTEST_WITH_FACTOR} are enough. Four or five words make a good one.`;
}

/** `password` twice, or `aaaa…`: the unit says it all. */
function isOverAndOver(text: string): boolean {
  const unit = /^(.+?)\1+$/u.exec(text)?.[1];
  return unit !== undefined && ([...unit].length < SHORTEST_WITH_FACTOR || isCommonPassword(unit));
}

/** True of a text that holds own words and little else. */
function isMostlyOwn(text: string, ownWords: readonly string[]): boolean {
  const left = ownWords.reduce((rest, word) => rest.replaceAll(word, ''), text);
  return left !== text && left.replace(/[^\p{L}\p{N}]/gu, '').length < SHORTEST_WITH_FACTOR;
}
