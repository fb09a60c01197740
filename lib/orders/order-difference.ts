import { lengthAsTyped } from '../forms/read-cut';
import type { GarmentSpec } from '../garment-forms/garment-catalogue';
import { formOf } from '../garment-forms/own-form';
import { coverInWords } from '../prompts/show-figures';
import type { Piece } from '../record/patient-record';
import { showDay } from '../units/calendar-day';

/** One thing in which an order differs from the last: in words, before and now. */
export type OrderDifference = { readonly what: string; readonly before: string; readonly now: string };

/** What is compared: a piece on record, or an order's piece to be. */
export type Compared = Pick<
  Piece,
  'covers' | 'cutFrom' | 'reductionPct' | 'convention' | 'allowance' | 'garment' | 'lifeDays' | 'leadDays'
>;

/**
 * In what an order differs from the last piece of its place, beside the girths; empty when in nothing.
 *
 * Shape: the last piece and the order's piece; differences in the order of the sheet. What an old piece does not say is `not recorded`.
 */
export function orderDifference(before: Compared, now: Compared): OrderDifference[] {
  const rows: [string, (one: Compared) => string][] = [
    ['Ladder', (one) => showDay(one.cutFrom)],
    ['Garment', (one) => formOf(one.garment)?.words ?? one.garment?.form ?? NOT_RECORDED],
    ['Worn', (one) => (one.garment ? wornInWords(one.garment) : NOT_RECORDED)],
    ['Covers', (one) => coverInWords(one.covers)],
    ['Reduction', (one) => `${one.reductionPct}\u202f%, ${conventionInWords(one.convention)}`],
    ['Class', (one) => (one.garment ? pressureInWords(one.garment) : NOT_RECORDED)],
    ['Options', (one) => (one.garment ? optionsInWords(one.garment) : NOT_RECORDED)],
    ['Room to let out', (one) => (one.allowance ? lengthAsTyped(one.allowance) : 'none')],
    ['Expected life', (one) => `${one.lifeDays} days`],
    ['Making and delivery', (one) => `${one.leadDays} days`],
  ];
  return rows.flatMap(([what, show]) => (show(before) === show(now) ? [] : [{ what, before: show(before), now: show(now) }]));
}

const NOT_RECORDED = 'not recorded';

/** When a garment is worn: `by day`. */
export function wornInWords({ use }: Pick<GarmentSpec, 'use'>): string {
  return use === 'other' ? 'other use' : `by ${use}`;
}

/** How a reduction is counted: `relaxed girth = girth × (1 − reduction)`. */
export function conventionInWords(convention: Piece['convention']): string {
  return convention === 'C(1-r)' ? 'relaxed girth = girth × (1 − reduction)' : 'relaxed girth = girth ÷ (1 + reduction)';
}

/** A class with its scheme and range, or that none was given: `class 2 of the clinic's scheme, 23–32 mmHg`. */
export function pressureInWords({ pressure }: Pick<GarmentSpec, 'pressure'>): string {
  return pressure ? `${pressure.name} (${pressure.scheme}), ${pressure.lowMmHg}–${pressure.highMmHg}\u202fmmHg` : 'no class given';
}

/** Options in one line: `zip, outer calf; expansion panel 3/4 in, back of the thigh`. */
export function optionsInWords({ options }: Pick<GarmentSpec, 'options'>): string {
  if (options.length === 0) return 'none';
  return options.map(({ choice, place, width }) => `${choice}${width ? ` ${lengthAsTyped(width)}` : ''}, ${place}`).join('; ');
}
