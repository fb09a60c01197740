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
} as const satisfies Record<string, Limit>;
