import { madeMeasure, SOURCES } from './made-measure';
import type { Measure } from './measure';

const foot = (given: Parameters<typeof madeMeasure>[2]): Measure => madeMeasure('foot', 'both', given);

/** Id, name, and girth and length from memory, mm. */
const TOES = [
  ['great-toe', 'great toe', 85, 50],
  ['second-toe', 'second toe', 58, 38],
  ['third-toe', 'third toe', 55, 32],
  ['fourth-toe', 'fourth toe', 54, 28],
  ['little-toe', 'little toe', 55, 24],
] as const;

const toe = ([id, name, girthMm, lengthMm]: (typeof TOES)[number]): Measure[] => [
  foot({
    id: `${id}-girth`,
    name: `${name} girth`,
    kind: 'girth',
    definition: `Round the ${name} at its thickest place.`,
    source: SOURCES.common,
    tapeSdMm: 1.5,
    roughMm: girthMm,
  }),
  foot({
    id: `${id}-length`,
    name: `${name} length`,
    kind: 'length',
    definition: `From the web beside the ${name} to its tip, upper side.`,
    source: SOURCES.common,
    tapeSdMm: 1.5,
    roughMm: lengthMm,
  }),
];

/** Measures of the foot, standing unless said otherwise. Ranges: ANSUR II 2012 (grown), Snyder 1977 (children). Reading errors: clinic defaults. */
export const FOOT: readonly Measure[] = [
  foot({
    id: 'foot-length',
    name: 'foot length',
    kind: 'length',
    definition: 'From the back of the heel to the most prominent toe, standing.',
    source: `${SOURCES.schema}; ${SOURCES.ansur}`,
    tapeSdMm: 2,
    usualMm: { M: [242, 271, 302], F: [219, 246, 276] },
    childrenMm: [
      [123, 148, 171],
      [142, 166, 192],
      [159, 188, 220],
      [186, 216, 253],
      [208, 237, 282],
      [216, 248, 286],
    ],
    yearlyGrowthMm: { M: [11, 9.4, 7.8, 10.1, 4.6], F: [11.6, 10.1, 9.1, 4.4, 0.1] },
    growth: 'A foot piece is 5 mm short after six months at 2 to 8 years (Snyder 1977, cross-sectional).',
  }),
  foot({
    id: 'ball-girth',
    name: 'ball girth',
    kind: 'girth',
    definition: 'Round the foot over the joints at the base of the great and the little toe.',
    source: SOURCES.ansur,
    tapeSdMm: 3,
    usualMm: { M: [225, 252, 284], F: [203, 228, 257] },
  }),
  foot({
    id: 'ball-length',
    name: 'heel to ball',
    kind: 'length',
    definition: 'From the back of the heel to the joint at the base of the great toe.',
    source: SOURCES.ansur,
    tapeSdMm: 3,
    usualMm: { M: [178, 200, 226], F: [161, 182, 205] },
  }),
  foot({
    id: 'foot-breadth',
    name: 'foot breadth',
    kind: 'breadth',
    definition: 'Greatest breadth of the standing foot, square to its length.',
    source: SOURCES.ansur,
    tapeSdMm: 2,
    usualMm: { M: [91, 102, 116], F: [82, 93, 104] },
    childrenMm: [
      [51, 61, 72],
      [57, 66, 77],
      [62, 74, 89],
      [70, 83, 100],
      [77, 92, 111],
      [81, 97, 114],
    ],
  }),
  foot({
    id: 'heel-ankle-girth',
    name: 'heel–ankle girth',
    kind: 'girth',
    definition: 'Under the tip of the heel and over the front bend of the ankle.',
    source: SOURCES.ansur,
    tapeSdMm: 3,
    usualMm: { M: [307, 343, 385], F: [277, 310, 348] },
  }),
  foot({
    id: 'instep-girth',
    name: 'instep girth',
    kind: 'girth',
    definition: 'Round the foot over the top of its arch.',
    source: SOURCES.common,
    tapeSdMm: 3,
    roughMm: 250,
  }),
  foot({
    id: 'ankle-girth',
    name: 'ankle girth',
    kind: 'girth',
    definition: 'The smallest girth above the ankle bones, square to the leg.',
    source: SOURCES.ansur,
    tapeSdMm: 2,
    usualMm: { M: [199, 228, 268], F: [186, 215, 254] },
    childrenMm: [
      [126, 149, 170],
      [132, 152, 174],
      [141, 165, 207],
      [151, 183, 234],
      [165, 203, 245],
      [174, 214, 252],
    ],
  }),
  foot({
    id: 'toe-base-girth',
    name: 'girth at the toe bases',
    kind: 'girth',
    definition: 'Round the foot at the webs of the toes.',
    source: SOURCES.common,
    tapeSdMm: 3,
    roughMm: 235,
  }),
  foot({
    id: 'heel-to-toe-base-inner',
    name: 'heel to toe base, inner side',
    kind: 'length',
    definition: 'From the back of the heel to the base of the great toe, along the inner border.',
    source: SOURCES.common,
    tapeSdMm: 3,
    roughMm: 205,
  }),
  foot({
    id: 'heel-to-toe-base-outer',
    name: 'heel to toe base, outer side',
    kind: 'length',
    definition: 'From the back of the heel to the base of the little toe, along the outer border.',
    source: SOURCES.common,
    tapeSdMm: 3,
    roughMm: 180,
  }),
  foot({
    id: 'ankle-figure-of-eight',
    name: 'figure of eight of the ankle',
    kind: 'length',
    definition:
      'From between the tendon of the tibialis anterior and the outer ankle bone, inwards past the navicular, under the arch to the base of the fifth metatarsal, back over the tendon, below the inner ankle bone, over the Achilles tendon, below the outer ankle bone, to the start; ankle at a right angle.',
    source:
      'Public teaching pages of the method of Tatro-Adams 1995 and Watson 2008. Untrained hands do better with one ankle girth (Brodovicz 2009).',
    tapeSdMm: 3,
    roughMm: 520,
  }),
  ...TOES.flatMap(toe),
];
