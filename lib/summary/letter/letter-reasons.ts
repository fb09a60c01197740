import type { CoverageRule } from '../../record/coverage';
import type { OrderReason } from '../../record/order';

/** The one primary reason of a replacement. Source: published coverage rules and common practice. */
export const LETTER_REASONS = [
  'end of period',
  'worn out in normal use',
  'outgrown',
  'lost',
  'stolen',
  'irreparably damaged',
  'change in condition',
] as const;
export type LetterReason = (typeof LETTER_REASONS)[number];

/** Why a piece cannot be a ready-made one; ticked by the therapist, never by the program. */
export const CUSTOM_REASONS = [
  'shape beyond ready-made size charts',
  'skin folds',
  'a ready-made piece was tried and did not fit',
  'scar area',
  'size of a child',
] as const;
export type CustomReason = (typeof CUSTOM_REASONS)[number];

/** The reasons of an order that stand for a letter's reason in a payer's rule. */
const AS_ORDERED: Readonly<Record<LetterReason, readonly OrderReason[]>> = {
  'end of period': [],
  'worn out in normal use': ['worn out'],
  lost: ['lost'],
  stolen: ['lost'],
  'irreparably damaged': ['damaged'],
  outgrown: ['outgrown'],
  'change in condition': ['condition changed'],
};

/** Reasons that the measurements bear out: their letter has the errors, and what the change says beside them. */
export function isBorneOut(reason: LetterReason): boolean {
  return reason === 'outgrown' || reason === 'change in condition';
}

/** Whether the rule covers that reason outside its clock. Example: a rule that excepts `lost` also excepts `stolen`. */
export function isExcepted(rule: Pick<CoverageRule, 'exceptions'>, reason: LetterReason): boolean {
  return AS_ORDERED[reason].some((one) => rule.exceptions.includes(one));
}

/** Reasons that need the day and the words of what happened. */
export function needsIncident(reason: LetterReason): boolean {
  return reason === 'lost' || reason === 'stolen' || reason === 'irreparably damaged';
}
