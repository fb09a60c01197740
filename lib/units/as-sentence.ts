/** Parts as one sentence: a full stop at its end, but for words that end with one, in quotes too. Example: `worn 9 h a day; “It rubs.”` stays so. */
export function asSentence(parts: readonly string[]): string {
  const text = parts.join('; ').trim();
  return /[.!?…][”“"’»]?$/.test(text) ? text : `${text}.`;
}
