/** What is tried on the what-if page, from the address: whole days of making, width let out in steps of the tape, a price of a piece. */
export type WhatIfTyped = { readonly making: number; readonly out: number; readonly price: number | null };

/** Days of making that may be tried; most steps let out. */
export const WHAT_IF_BOUNDS = { leastDays: 1, mostDays: 60, mostSteps: 40 } as const;

/** A price of a piece in the clinic's own money; the unit is not asked, since it is only multiplied. */
const PRICE = /^\d{1,6}([.,]\d{1,2})?$/;

/**
 * The two sliders and the price, or one sentence beside each box that stops it; a box that is left out stands at its start.
 *
 * Shape: boxes by name; starting days, steps of room that is left. Example: `making=14&out=2&price=120,50`.
 */
export function readWhatIf(
  typed: Readonly<Record<string, string | undefined>>,
  start: { readonly making: number; readonly steps: number },
): { readonly tried: WhatIfTyped; readonly errors: Readonly<Record<string, string>> } {
  const errors: Record<string, string> = {};
  const whole = (box: 'making' | 'out', low: number, high: number, otherwise: number): number => {
    const text = (typed[box] ?? '').trim();
    if (text === '') return otherwise;
    if (/^\d{1,3}$/.test(text) && Number(text) >= low && Number(text) <= high) return Number(text);
    errors[box] = `Whole figures from ${low} to ${high}.`;
    return otherwise;
  };
  const { leastDays, mostDays, mostSteps } = WHAT_IF_BOUNDS;
  const steps = Math.min(start.steps, mostSteps);
  const making = whole('making', leastDays, mostDays, Math.min(Math.max(start.making, leastDays), mostDays));
  const out = whole('out', 0, steps, Math.min(1, steps));
  const price = (typed.price ?? '').trim();
  if (price !== '' && !PRICE.test(price)) errors.price = 'Type a price such as 120 or 120.50.';
  return { tried: { making, out, price: PRICE.test(price) ? Number(price.replace(',', '.')) : null }, errors };
}
