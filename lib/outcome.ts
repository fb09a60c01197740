/**
 * What comes back when a person may have been wrong: a value, a refusal, or a question.
 *
 * What a user got wrong is an outcome, never an exception; exceptions are for bugs.
 * `reason` is one plain sentence that can stand beside the field it came from.
 */
export type Reading<T> =
  | { readonly kind: 'read'; readonly value: T }
  | { readonly kind: 'refused'; readonly reason: string }
  | { readonly kind: 'ask'; readonly reason: string; readonly readings: readonly string[] };

/** The text was understood. */
export function read<T>(value: T): Reading<T> {
  return { kind: 'read', value };
}

/** The text cannot be read; `reason` says up to where and what to type instead. */
export function refused(reason: string): { kind: 'refused'; reason: string } {
  return { kind: 'refused', reason };
}

/** The text can be read in more than one way; nobody guesses, the reader chooses. */
export function ask(reason: string, readings: readonly string[]): { kind: 'ask'; reason: string; readings: readonly string[] } {
  return { kind: 'ask', reason, readings };
}

/** No answer, with the reason a person can act on. Stands wherever a figure would. */
export type NoAnswer = { readonly noAnswer: string };

/** True when a figure is missing and carries its reason instead. */
export function isNoAnswer(value: unknown): value is NoAnswer {
  return typeof value === 'object' && value !== null && 'noAnswer' in value;
}
