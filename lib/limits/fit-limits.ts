import { type Limit, limit } from './limit';

/** Limits of fit: the working band, and what asks for a remeasure. */
export const FIT_LIMITS = {
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
    'Weight change since the piece was measured for: measure the limb',
  ),
  weightRefitPct: limit(
    10,
    '%',
    'common practice',
    'Commonly told to patients; no guideline gives a figure for garments.',
    'Weight change since the piece was measured for: expect a new piece',
  ),
  growthGirthPct: limit(
    2,
    '%',
    'clinic default',
    'About half a year of mid-childhood growth at the calf (Berkeley, Tuddenham and Snyder 1954).',
    'Expected girth growth since the piece was measured for: measure the limb',
  ),
  lengthDriftPct: limit(
    4,
    '%',
    'clinic default',
    'Of the covered length, whatever interval was measured at: about 1.5 cm of a child’s 38 cm leg piece.',
    'A landmark that moved along the piece by more has outgrown it by length',
  ),
} as const satisfies Record<string, Limit>;
