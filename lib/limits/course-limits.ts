import { type Limit, limit } from './limit';

/** Limits of the course of care: when a share of an excess is said, when a reduction has levelled off, what counts as come back, when a hold is asked about. */
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
  levelledOffVisits: limit(
    2,
    'visits',
    'clinic default',
    'Two tapings that agree; no numeric rule of a plateau is published (evidence summary, Wound Practice and Research 24(4)).',
    'Visits after the first of a reduction before it can be said to have levelled off',
  ),
  levelledOffDays: limit(
    3,
    'days',
    'clinic default',
    'Two tapings some sessions apart, by the same person, at the same hour and posture.',
    'Least days between two ladders that agree, for a reduction to have levelled off',
  ),
  levelledOffArmPct: limit(
    2.3,
    '% of volume',
    'published',
    'Smallest change that one therapist’s tape tells on an arm, standard error 0.82 % (Tidhar 2015, J Pers Med 5:341).',
    'Change of an arm’s volume below which its reduction has levelled off',
  ),
  levelledOffLegPct: limit(
    1.8,
    '% of volume',
    'published',
    'Smallest change that one therapist’s tape tells on a leg, standard error 0.64 % (Tidhar 2015, J Pers Med 5:341).',
    'Change of a leg’s volume below which its reduction has levelled off',
  ),
  levelledOffGirthMm: limit(
    10,
    'mm',
    'clinic default',
    'A centimetre at one place is beyond the reading and the placing of a tape.',
    'Change of girth at one place from which a reduction has not levelled off',
  ),
  reboundRegainedPct: limit(
    50,
    '% of what was lost',
    'published',
    'Regained at least half of the reduction: 38, 53 and 65 % of 682 arms at 1, 2 and 4 years (Vignes 2011).',
    'Share of a reduction that is back, from which going back to reduction is proposed',
  ),
  reboundAbovePct: limit(
    10,
    '% of the excess at its end',
    'published',
    'Half of 537 arms had regained more than a tenth at 12 months (Vignes 2007).',
    'Excess above that at the end of reduction, above which going back to reduction is proposed',
  ),
  holdAskDays: limit(
    91,
    'days',
    'clinic default',
    'A hold falls due itself: looked at within three months.',
    'Days after which a hold is asked about where no day was set',
  ),
} as const satisfies Record<string, Limit>;
