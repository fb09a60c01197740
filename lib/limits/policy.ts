import { z } from 'zod';
import { LIMITS, type LimitName } from './limits';

/** Every limit at the clinic's value, and the growth tables it reads. */
export type Policy = { readonly [name in LimitName]: number } & {
  readonly growthReference: 'cdc-2000' | 'who';
  /** Days from one visit to the next for this clinic, by age in years (upper edge, days). */
  readonly reviewDays: readonly { readonly underYears: number; readonly days: number }[];
};

/**
 * Clinic default: review every 6 weeks under 2 years, 8 under 5, 12 while growing, 26 when grown.
 *
 * Grown people with scars or with a new piece for lymphoedema have limits of their own; venous disease keeps the 26 weeks.
 */
const REVIEW_DAYS = [
  { underYears: 2, days: 42 },
  { underYears: 5, days: 56 },
  { underYears: 18, days: 84 },
  { underYears: 200, days: 182 },
];

const defaults = Object.fromEntries(Object.entries(LIMITS).map(([name, { value }]) => [name, value])) as { [name in LimitName]: number };

/** The policy of a clinic that has set nothing. */
export const DEFAULT_POLICY: Policy = { ...defaults, growthReference: 'cdc-2000', reviewDays: REVIEW_DAYS };

/** Ranges of which the lower edge lies below the upper one, with what is said where it does not. */
export const RANGE_LIMITS = [
  ['scarLossLowPct', 'scarLossHighPct'],
  ['flatKnitLossLowPct', 'flatKnitLossHighPct'],
  ['fabricExponentLow', 'fabricExponentHigh'],
] as const satisfies readonly (readonly [LimitName, LimitName])[];

/** What a clinic may set: any limit above 0, the growth tables, the review intervals. Unknown names and limits that contradict are refused. */
export const policySchema = z
  .strictObject({
    ...(Object.fromEntries(Object.keys(LIMITS).map((name) => [name, z.number().positive().optional()])) as {
      [name in LimitName]: z.ZodOptional<z.ZodNumber>;
    }),
    growthReference: z.enum(['cdc-2000', 'who']).optional(),
    reviewDays: z.array(z.strictObject({ underYears: z.number().positive(), days: z.number().int().positive() })).optional(),
  })
  .refine((own) => (own.bandLow ?? LIMITS.bandLow.value) < 1 && (own.bandHigh ?? LIMITS.bandHigh.value) > 1, {
    path: ['bandLow'],
    message: 'The working band must lie about the fitted tightness, 1: bandLow below it and bandHigh above.',
  })
  .refine((own) => RANGE_LIMITS.every(([low, high]) => (own[low] ?? LIMITS[low].value) < (own[high] ?? LIMITS[high].value)), {
    path: ['scarLossLowPct'],
    message: 'The least of a range of fabric must lie below the most.',
  })
  .refine((own) => (own.weightLookPct ?? LIMITS.weightLookPct.value) <= (own.weightRefitPct ?? LIMITS.weightRefitPct.value), {
    path: ['weightLookPct'],
    message: 'The weight change that asks for a remeasure cannot be larger than the one that expects a new piece.',
  });

/** Limits that counted once, and what took their place. A file that still names one is read, and says that it no longer counts. */
export const RETIRED_LIMITS: Readonly<Record<string, string>> = {
  growthLengthSteps: 'lengthDriftPct',
  verdictSds: 'alarmProbability',
  unevenSds: 'alarmProbability',
};

/** The default policy with the clinic's own figures in place of some. */
export function policyWith(own: z.infer<typeof policySchema>): Policy {
  const set = Object.fromEntries(Object.entries(own).filter(([, value]) => value !== undefined));
  return { ...DEFAULT_POLICY, ...set };
}
