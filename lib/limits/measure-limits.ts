import { type Limit, limit } from './limit';

/** Limits of the questions about named measures: hand, foot, trunk, head. */
export const MEASURE_LIMITS = {
  wrongFigureShare: limit(
    0.01,
    'share',
    'clinic default',
    'About one figure in a hundred that is typed by hand is not what was read (from memory of studies of number entry).',
    'How many figures are typed or read wrong before anything else is known of them',
  ),
  wrongFigureProbability: limit(
    0.03,
    'probability',
    'clinic default',
    'A question costs about a thirtieth of what a wrong figure in a garment costs. Asks about fewer than one clean measure in two hundred, also where few measures were taken (tests/body-model).',
    'Probability from which a named measure is asked about',
  ),
} as const satisfies Record<string, Limit>;
