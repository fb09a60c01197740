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
  fingerShortMm: limit(
    2,
    'mm',
    'clinic default',
    'Half the depth of a web: a glove finger is 2–3 mm short after a year at 2 to 8 years (Snyder 1977, cross-sectional).',
    'A finger or toe that grew longer than the piece was cut for by more has outgrown it',
  ),
  footShortMm: limit(
    5,
    'mm',
    'clinic default',
    'A foot piece is 5 mm short after six months at 2 to 8 years (Snyder 1977, cross-sectional).',
    'A hand, foot or trunk that grew longer than the piece was cut for by more has outgrown it',
  ),
  childPartDays: limit(
    91,
    'days',
    'clinic default',
    'Every three months from 2 to 8 years, so that a foot piece is seen before it is 5 mm short (growth: Snyder 1977).',
    'A child below nine years with a glove or foot piece: measure hand or foot again after',
  ),
  residualLossPct: limit(
    5,
    '%',
    'clinic default',
    'From week 4 to about week 7 after an amputation; volume falls by 9.7 % of the start for each unit of ln(week) (Tantua 2014, n 21, abstract).',
    'Expected loss of volume of a residual limb since it was measured: measure it again',
  ),
} as const satisfies Record<string, Limit>;
