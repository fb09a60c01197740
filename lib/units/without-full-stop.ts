/** Words that somebody typed, without a full stop at their end, to go on in a sentence. Example: `moves away.` is `moves away`. */
export function withoutFullStop(words: string): string {
  return words.trim().replace(/\.$/, '');
}
