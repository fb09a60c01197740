/** Where a limit of the doubts comes from, what it counts, and the limit. */
type DoubtLimit = {
  readonly value: number;
  readonly unit: string;
  readonly source: string;
};

const limit = (value: number, unit: string, source: string): DoubtLimit => ({
  value,
  unit,
  source,
});

const PLANTED =
  'Clinic default; chosen by planted slips on model limbs with 0.3 cm of reading noise and 0.5 cm of placing (tests/properties).';

/**
 * Every limit of the questions that need a second ladder, in one place. All ask, none refuses.
 *
 * `alone` is for a figure that no slip explains, `slip` for one that a slip would put right; both count SDs of what is expected.
 */
export const DOUBT_LIMITS = {
  alone: limit(4, 'SD', PLANTED),
  aloneShare: limit(
    0.05,
    'share of girth',
    'About twice the largest usual left–right difference over tape error (Yeadon sample, body measures).',
  ),
  slip: limit(2.6, 'SD', PLANTED),
  slipCorrected: limit(2, 'SD', PLANTED),
  slipMovesMm: limit(8, 'mm', 'Just under 1 cm, the smallest swap that is worth a question; clinic default.'),
  swollen: limit(1.25, 'times', 'Lobes and folds break neighbourhood in a swollen limb, so its questions are milder; clinic default.'),
  swollenNeighbours: limit(
    2.5,
    'times',
    'A fold or lobe may stand out by a tenth or more; a rung a fifth off its neighbours is asked about all the same; clinic default.',
  ),
  usualShape: limit(
    1.15,
    'times',
    'People differ in shape more than a limb does from itself; set so that Slack 1997 has its marked slips found and few others asked.',
  ),
  fits: limit(
    2.5758293035489004,
    'SD',
    'A rung within the range that holds 99 of 100 fits, and is not asked about for its neighbours’ sake; clinic default.',
  ),
  shiftGain: limit(
    9,
    'χ²',
    'Clinic default; so many starts of a shift are tried that at 6 every third clean arm was asked about (tests/properties).',
  ),
  swapGain: limit(8, 'χ²', PLANTED),
  sidesGain: limit(18, 'χ²', PLANTED),
  fewestForWhole: limit(3, 'rungs', 'Three girths in the other unit are no chance; clinic default.'),
  fewestEqual: limit(4, 'rungs', 'Four equal neighbours to the tape step are rare by chance; common practice.'),
  steepest: limit(1.5, 'cm per cm', 'Above every slope of ANSUR II 2012 and Snyder 1977 but at knee and shoulder.'),
  steepestAtJoint: limit(2, 'cm per cm', 'Slack 1997: knee to distal thigh, 99th percentile 1.85.'),
  againMm: limit(8.3, 'mm', 'Smallest real difference of two readings, 1.96 × √2 × 3 mm reading SD.'),
} as const satisfies Record<string, DoubtLimit>;

/**
 * How far apart two ladders of the same anatomy may be before anything is odd, SD: the whole level, the tilt along the limb (per half
 * length), the zero (mm), and each rung by itself.
 *
 * Last visit: tension and body model; other limb: five people taped on both sides by students differ by 2.2 % (median), 4.6 % (75th
 * percentile) a rung (Yeadon sample). Usual shape: ANSUR II, see `usual-shape`, with room for the place of a rung. Swollen limbs vary more: clinic default.
 */
export const SPREAD = {
  last: { level: 0.03, tilt: 0.012, zeroMm: 8, rung: 0.006 },
  lastSwollen: { level: 0.07, tilt: 0.06, zeroMm: 8, rung: 0.015 },
  other: { level: 0.05, tilt: 0.03, zeroMm: 8, rung: 0.02 },
  shape: { level: 0.3, tilt: 0.1, zeroMm: 20, rung: 0.045 },
  shapeSwollen: { level: 0.4, tilt: 0.25, zeroMm: 20, rung: 0.08 },
  otherSwollen: { level: 0.2, tilt: 0.12, zeroMm: 8, rung: 0.04 },
} as const satisfies Record<string, Spread>;

/** How far ladders of two visits or limbs may spread. */
export type Spread = { readonly level: number; readonly tilt: number; readonly zeroMm: number; readonly rung: number };
