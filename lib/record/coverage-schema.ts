import { z } from 'zod';
import { COVERED_USES, EXCEPTION_REASONS } from './coverage';

const lineSchema = z.strictObject({
  use: z.enum(COVERED_USES),
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
