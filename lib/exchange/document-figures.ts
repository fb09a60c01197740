import { isNoAnswer, type NoAnswer } from '../outcome';

/** The reasons of every answer that is missing, by key. */
export function reasons(answers: Record<string, unknown>): Record<string, string> {
  return Object.fromEntries(
    Object.entries(answers).flatMap(([key, answer]) => (isNoAnswer(answer) ? [[key, (answer as NoAnswer).noAnswer]] : [])),
  );
}

/** A share in per cent, to 0.001. Example: 0.123456 → 12.346. */
export function pct(share: number): number {
  return round(share * 100, 3);
}

/**
 * Rounded for print; −0 is written 0, and a figure that is none stays one, so that a fault is never printed as 0.
 * Example: −0.0004 to three decimals → 0.
 */
export function round(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  return Math.round(value * scale) / scale + 0;
}
