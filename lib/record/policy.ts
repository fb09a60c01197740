import { z } from 'zod';

/** Where a limit comes from: a publication, the custom of the trade, or this clinic's own choice. */
export type SourceKind = 'published' | 'common practice' | 'clinic default';

/** A figure the clinic can set: its value, unit, where the default comes from, and what it does. */
export type Limit = {
  readonly value: number;
  readonly unit: string;
  readonly kind: SourceKind;
  readonly source: string;
  readonly does: string;
};

const limit = (value: number, unit: string, kind: SourceKind, source: string, does: string): Limit => ({ value, unit, kind, source, does });

/**
 * Every limit of the engine, with its unit, its source and the kind of source. Each can be set by the clinic.
 *
 * Arithmetic constants (12π, 25.4) are not limits and stand with their formula.
 */
export const LIMITS = {
  readingSdMm: limit(
    3,
    'mm',
    'clinic default',
    'Girth SD 0.2–0.5 cm by one measurer (from memory of anthropometry manuals).',
    'SD of one girth reading',
  ),
  tensionSameSd: limit(
    0.004,
    'share',
    'clinic default',
    'Leg volume SEM 1.2–1.4 % by one measurer (Lymphat Res Biol 2022, doi 10.1089/lrb.2022.0032).',
    'SD of tape tension, same measurer',
  ),
  tensionOtherSd: limit(
    0.01,
    'share',
    'clinic default',
    'SEM about 2.5 % when the measurer changes; intra better than inter (Deltombe 2007, Lymphology).',
    'SD of tape tension, other or unknown measurer',
  ),
  placementSdMm: limit(5, 'mm', 'clinic default', 'SD of putting zero or a landmark on the skin.', 'SD of placing zero or a landmark'),
  verdictSds: limit(
    2.2,
    'SD',
    'clinic default',
    'At most 3 % of false alarms in a simulated cohort with tape error alone.',
    'Unexplained change that counts as more or less than expected',
  ),
  shiftAskMm: limit(
    15,
    'mm',
    'clinic default',
    'A clean pair of zeros differs by 0.7 cm (SD); 1.5 cm questions about one clean visit in twenty.',
    'Smallest moved zero that is asked about',
  ),
  sharedSpanShare: limit(
    0.5,
    'share',
    'clinic default',
    'Volumes of less than half of the baseline ladder say little of the limb.',
    'Smallest share of the baseline ladder for a verdict',
  ),
  legHoursApart: limit(
    4,
    'h',
    'published',
    'Lower leg +4.7 % after 8 h standing, −5.6 % after 10 h lying (Tessari 2013, Veins and Lymphatics).',
    'Hours of the day apart before a leg change is doubted',
  ),
  legPostureSd: limit(
    0.025,
    'share',
    'published',
    'Half of the 5 % of volume between standing and lying (Tessari 2013).',
    'SD of leg girth from another posture or hour',
  ),
  armPostureSd: limit(
    0.012,
    'share',
    'published',
    'Arm forward against hanging 1.4–3.4 % of volume (Peleg and Katz-Leurer 2017).',
    'SD of arm girth from another posture',
  ),
  grownFromYears: limit(
    18,
    'years',
    'clinic default',
    'Growth tables end near 18 to 20 years; height alone decides for the rest.',
    'Age from which a patient counts as grown',
  ),
  bandLow: limit(
    0.75,
    'of fitted tightness',
    'clinic default',
    '15 mmHg of a usual 20 mmHg; 15–25 mmHg is the usual range for scars (Ai 2017, Sci Rep 7:40185).',
    'Lower edge of the working band',
  ),
  bandHigh: limit(
    1.25,
    'of fitted tightness',
    'clinic default',
    '25 mmHg of a usual 20 mmHg (Ai 2017, Sci Rep 7:40185).',
    'Upper edge of the working band',
  ),
  weightLookPct: limit(
    5,
    '%',
    'common practice',
    'Usual step of clinically meaningful weight change; no guideline gives a figure for garments.',
    'Weight change since the cut-from ladder: tape the limb',
  ),
  weightRefitPct: limit(
    10,
    '%',
    'common practice',
    'Commonly told to patients; no guideline gives a figure for garments.',
    'Weight change since the cut-from ladder: expect a new piece',
  ),
  growthGirthPct: limit(
    2,
    '%',
    'clinic default',
    'About half a year of mid-childhood growth at the calf (Berkeley, Tuddenham and Snyder 1954).',
    'Expected girth growth since the cut-from ladder: tape the limb',
  ),
  growthLengthSteps: limit(
    0.5,
    'rung',
    'clinic default',
    'Half a rung of drift puts every girth nearer another place of the piece.',
    'Landmark drift since the cut-from ladder: tape the limb',
  ),
  measuringDays: limit(
    7,
    'days',
    'clinic default',
    'Time to book a visit and tape before an order leaves.',
    'Days allowed for measuring before an order',
  ),
  orderLadderDays: limit(
    42,
    'days',
    'clinic default',
    'One area guideline asks for a measurement under 6 months old (venous hosiery, United Kingdom); a growing child needs a fresher one.',
    'Age of a ladder from which an order asks for a new one',
  ),
  wearInFirstHours: limit(
    2,
    'h',
    'common practice',
    'Hours are built up: 2 h to 23 h over one to two weeks for scars (from memory), a few hours at first for lymphoedema.',
    'Hours of wear on the first day of the wear-in',
  ),
  wearInFullHours: limit(
    23,
    'h',
    'common practice',
    '23 h a day for scars; day wear only where the prescriber says so.',
    'Hours of wear a day at the end of the wear-in',
  ),
  wearInDays: limit(14, 'days', 'common practice', 'Full hours within one to two weeks.', 'Days of the wear-in'),
  earlyCallDays: limit(
    7,
    'days',
    'common practice',
    'A call or a visit within days to two weeks of first wear.',
    'Days after first wear of the early call',
  ),
  endOfLifeLookDays: limit(
    14,
    'days',
    'clinic default',
    'A fortnight of notice before the order-by day.',
    'Days before the order-by day that a prompt opens',
  ),
  firstFitDays: limit(
    14,
    'days',
    'common practice',
    'A fitting check within days to two weeks of first wear.',
    'Days after first wear before a missing first-fit check is asked about',
  ),
  suddenGainKg: limit(
    2,
    'kg',
    'published',
    'More than 2 kg in 3 days: advice to people with heart failure (European Society of Cardiology, secondary account).',
    'Weight gain that is shown to the prescriber',
  ),
  suddenGainDays: limit(
    3,
    'days',
    'published',
    'More than 2 kg in 3 days (European Society of Cardiology, secondary account).',
    'Days within which a sudden gain counts',
  ),
  calfGainMm: limit(
    30,
    'mm',
    'published',
    'Calf 3 cm larger than the other, item of the two-level Wells score (NICE); here new against the patient’s own baseline.',
    'New one-sided calf gain that is shown to the prescriber',
  ),
  calfGainDays: limit(
    14,
    'days',
    'clinic default',
    'A slower gain follows the usual review.',
    'Days within which a new one-sided calf gain counts',
  ),
} as const satisfies Record<string, Limit>;

/** The name of a limit. */
export type LimitName = keyof typeof LIMITS;

/** Every limit at the clinic's value, and the growth tables it reads. */
export type Policy = { readonly [name in LimitName]: number } & {
  readonly growthReference: 'cdc-2000' | 'who';
  /** Days from one visit to the next for this clinic, by age in years (upper edge, days). */
  readonly reviewDays: readonly { readonly underYears: number; readonly days: number }[];
};

/** Clinic default: review every 6 weeks under 2 years, 8 under 5, 12 while growing, 26 for adults (engine section 9). */
const REVIEW_DAYS = [
  { underYears: 2, days: 42 },
  { underYears: 5, days: 56 },
  { underYears: 18, days: 84 },
  { underYears: 200, days: 182 },
];

const defaults = Object.fromEntries(Object.entries(LIMITS).map(([name, { value }]) => [name, value])) as { [name in LimitName]: number };

/** The policy of a clinic that has set nothing. */
export const DEFAULT_POLICY: Policy = { ...defaults, growthReference: 'cdc-2000', reviewDays: REVIEW_DAYS };

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
  .refine((own) => (own.weightLookPct ?? LIMITS.weightLookPct.value) <= (own.weightRefitPct ?? LIMITS.weightRefitPct.value), {
    path: ['weightLookPct'],
    message: 'The weight change that asks for the tape cannot be larger than the one that expects a new piece.',
  });

/** The default policy with the clinic's own figures in place of some. */
export function policyWith(own: z.infer<typeof policySchema>): Policy {
  const set = Object.fromEntries(Object.entries(own).filter(([, value]) => value !== undefined));
  return { ...DEFAULT_POLICY, ...set };
}
