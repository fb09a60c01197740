import { type Limit, limit } from './limit';

/** Limits of the cautions that are shown to the prescriber. */
export const CAUTION_LIMITS = {
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
  abpiLow: limit(
    0.8,
    'index',
    'published',
    'Guidelines differ: contraindicated below 0.6 (Rabe 2020, Phlebology 35:447–460), caution below 0.8 (secondary account of United States guidance).',
    'Ankle–brachial index below which blood supply is not confirmed',
  ),
  abpiHigh: limit(
    1.3,
    'index',
    'common practice',
    'Above 1.3 or 1.4 the arteries may be too stiff to read (from memory).',
    'Ankle–brachial index above which blood supply is not confirmed',
  ),
  abpiDays: limit(
    365,
    'days',
    'common practice',
    'Repeated every 6 to 12 months while compression goes on (from memory).',
    'Age of an ankle–brachial index from which it is asked for again',
  ),
  growthWatchYears: limit(
    18,
    'years',
    'clinic default',
    'Jaw, chest, hand and foot go on growing until about 18 (Fricke 1999 looked at children).',
    'Age below which garments over face, neck, chest, hand or foot are watched',
  ),
  stalledGrowthDays: limit(
    182,
    'days',
    'clinic default',
    'A child grows by 2 to 3 cm in half a year, more than a height is misread by.',
    'Days without gain of height that are asked about in a child',
  ),
} as const satisfies Record<string, Limit>;
