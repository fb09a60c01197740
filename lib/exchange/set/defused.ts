import type { CellKind } from './set-table';

const FIGURES: readonly CellKind[] = ['day', 'moment', 'whole', 'decimal'];

/** True for cells that hold words, or could: all but figures and days. Ids too, because a clinic's reference may begin like a formula. */
export function isWords(kind: CellKind): boolean {
  return !FIGURES.includes(kind);
}

/**
 * Words that a spreadsheet could take for a formula, with an apostrophe before them; other words as they are.
 *
 * For words only, never for figures: −3.2 is a figure. Words that begin with apostrophes before such a sign get one more, so that
 * `undefused` gives every text back. Source: OWASP, CSV injection: cells that begin with = + - @, tab or carriage return, also full-width.
 * Example: `=1+1` is `'=1+1`; `thigh` stays.
 */
export function defused(text: string): string {
  return /^'*[=+\-@\t\r\uff1d\uff0b\uff0d\uff20]/.test(text) ? `'${text}` : text;
}

/** Undoes `defused`. */
export function undefused(text: string): string {
  return /^'+[=+\-@\t\r\uff1d\uff0b\uff0d\uff20]/.test(text) ? text.slice(1) : text;
}
