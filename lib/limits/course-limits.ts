import { type Limit, limit } from './limit';

/** Limits of the course of care: when a share of an excess is said. */
export const COURSE_LIMITS = {
  leastExcessPct: limit(
    5,
    '% of the other limb',
    'clinic default',
    'Screening for swelling begins at 5 % between limbs (Borman 2022, Eur J Breast Health 18:148); healthy limbs differ by as much.',
    'First excess from which on the share of it that is gone is said',
  ),
  leastExcessErrors: limit(
    2,
    'standard errors',
    'clinic default',
    'An excess within two standard errors of its own measurement may be none.',
    'First excess, in its own standard errors, from which on the share of it that is gone is said',
  ),
} as const satisfies Record<string, Limit>;
