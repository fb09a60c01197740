/** Words as a sentence or a label starts. Example: `left leg` is `Left leg`. */
export function capitalized(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
