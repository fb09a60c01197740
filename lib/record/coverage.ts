import { z } from 'zod';
import type { OrderReason } from './order';

/** How many pieces of a use a payer covers for one limb in a period, and how the period runs. */
export type CoverageLine = {
  readonly use: 'day' | 'night' | 'other';
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

const lineSchema = z.strictObject({
  use: z.enum(['day', 'night', 'other']),
  quantity: z.number().int().min(1).max(50),
  months: z.number().int().min(1).max(120),
  clock: z.enum(['fixed', 'rolling']),
});

/** A clinic's rules as they are stored. */
export const coverageRulesSchema = z.array(
  z.strictObject({
    id: z.string().min(1),
    payer: z.string().min(1).max(120),
    lines: z.array(lineSchema).min(1),
    exceptions: z.array(z.enum(EXCEPTION_REASONS)),
    source: z.string().min(1).max(400),
  }),
);
