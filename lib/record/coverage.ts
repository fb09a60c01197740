import type { OrderReason } from './order';

/** Uses a rule may have a line for, in the order of the form. */
export const COVERED_USES = ['day', 'night', 'other'] as const;

/** How many pieces of a use a payer covers for one limb in a period, and how the period runs. */
export type CoverageLine = {
  readonly use: (typeof COVERED_USES)[number];
  readonly quantity: number;
  readonly months: number;
  /** Fixed periods from the patient's first day, or a rolling one that looks back from each day. */
  readonly clock: 'fixed' | 'rolling';
};

/** A payer's rule as a clinic has written it down. No payer and no country is built in. */
export type CoverageRule = {
  readonly id: string;
  readonly payer: string;
  readonly lines: readonly CoverageLine[];
  /** Reasons for which a piece is covered outside the clock. */
  readonly exceptions: readonly OrderReason[];
  readonly source: string;
};

/** The reasons that a rule can take as exceptions. */
export const EXCEPTION_REASONS = ['lost', 'damaged', 'condition changed', 'outgrown', 'remake'] as const satisfies readonly OrderReason[];
