/** Control characters that stand in no text somebody typed: all of C0 and DEL but for tab and line ends. Source: Unicode, table 23-1. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
const CONTROL = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/;
/** Half of a surrogate pair without its other half: no character. Source: Unicode, section 3.9, D91. */
const HALF = /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/;

/**
 * Whether a text is one that both databases keep to the letter: PostgreSQL refuses a null character, and half of a surrogate pair comes
 * back from either as another character.
 *
 * Example: `Mira\u0000` is not, nor `\ud83e`; `пять 🧵\n` is. Linear in the text.
 */
export function isPlainText(text: string): boolean {
  return !CONTROL.test(text) && !HALF.test(text);
}

/** Characters of one text that a person wrote, at most, however it comes in; a form may allow fewer. Clinic default. */
export const LONGEST_TEXT = 4000;
