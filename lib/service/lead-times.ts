import { type CountedDays, type DaysSpread, daysSpread, FEWEST_FOR_A_MIDDLE } from './days-spread';

/** What is proposed as the days of making of one form of garment, and why in words. `days` is undefined where too few came. */
export type LeadProposal = { readonly days: number | undefined; readonly words: string };

/**
 * Days of making to count with, from those that were achieved: by when nine in ten pieces of a form had come.
 *
 * Shape: days from order to delivery, counted, of pieces of one form; undefined proposal below twenty pieces, of which the number is said.
 * Source: `daysSpread`; nine in ten: clinic default, so that one order in ten is late and not one in two.
 * Example: days 1 to 20, one piece each: 18, “20 pieces of this form: half came within 11 days, nine in ten within 18”.
 */
export function leadProposal(counted: CountedDays): LeadProposal {
  const spread = daysSpread(counted);
  if (spread) return { days: spread.nineInTen, words: spreadWords(spread) };
  const n = counted.reduce((sum, one) => sum + one.n, 0);
  if (n === 0) return { days: undefined, words: 'No delivery of this form is on record.' };
  return {
    days: undefined,
    words: `${n === 1 ? 'One piece' : `${n} pieces`} of this form came so far: too few to propose days (${FEWEST_FOR_A_MIDDLE} needed).`,
  };
}

function spreadWords({ n, median, nineInTen }: DaysSpread): string {
  return `${n} pieces of this form: half came within ${Math.ceil(median)} days, nine in ten within ${nineInTen}.`;
}
