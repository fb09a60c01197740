/** A number with its word, in the singular or the plural. Example: `1 patient`, `2 patients`, `1 new patient`. */
export function counted(number: number, word: string, plural = `${word}s`): string {
  return `${number} ${number === 1 ? word : plural}`;
}
