import { type Limit, limit } from './limit';

/** Limits of fit: the working band, and what asks for the tape. */
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
} as const satisfies Record<string, Limit>;
