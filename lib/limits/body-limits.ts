import { type Limit, limit } from './limit';

/** Limits of the questions about height and weight. */
export const BODY_LIMITS = {
  heightReadingSdMm: limit(
    7,
    'mm',
    'clinic default',
    'Heights measured twice by trained people differ by 0.2–0.5 cm, one standard deviation (common practice); shoes, posture and other boards add to it.',
    'Spread of one height reading',
  ),
  weightReadingSd: limit(
    0.015,
    'share',
    'clinic default',
    'Clothes, the hour of the day and another scale make 1–2 % (common practice).',
    'Spread of one weight reading',
  ),
  weightWaverSd: limit(
    0.055,
    'share',
    'clinic default',
    'Weights of grown people wander by about 5 % over a year, one standard deviation (from memory of cohort studies).',
    'How far a grown person’s weight wanders in a year',
  ),
  bodySlipSds: limit(
    2.6,
    'standard deviations',
    'clinic default',
    'Finds 95 of 100 planted slips and asks about fewer than one clean visit in a hundred (tests/properties).',
    'Height or weight asked about where a usual slip would explain it',
  ),
  bodyAloneSds: limit(
    4,
    'standard deviations',
    'clinic default',
    'Chosen with the one above.',
    'Height or weight asked about where no usual slip explains it',
  ),
} as const satisfies Record<string, Limit>;
