import { madeMeasure, SOURCES } from './made-measure';
import type { Measure } from './measure';

const hand = (given: Parameters<typeof madeMeasure>[2]): Measure => madeMeasure('hand', 'both', given);

/** Id, name, and length, girth at the base, at the joint and near the tip of a grown hand from memory, mm. */
const DIGITS = [
  ['thumb', 'thumb', [60, 68, 66, 56]],
  ['index-finger', 'index finger', [70, 64, 62, 50]],
  ['middle-finger', 'middle finger', [78, 65, 63, 50]],
  ['ring-finger', 'ring finger', [72, 60, 59, 47]],
  ['little-finger', 'little finger', [58, 53, 52, 42]],
] as const;

/** Middle finger, palm side. Source: grown, hand less palm length of ANSUR II 2012; children, Snyder 1977. */
const MIDDLE_FINGER: Partial<Measure> = {
  roughMm: null,
  usualMm: { M: [63, 77, 92], F: [59, 72, 87] },
  childrenMm: [
    [35, 44, 54],
    [42, 49, 58],
    [47, 57, 66],
    [55, 65, 78],
    [60, 73, 89],
    [66, 78, 92],
  ],
  yearlyGrowthMm: { M: [2.9, 3.2, 2.4, 3.3, 1.7], F: [2.8, 3.3, 3.4, 2.4, 0.2] },
  growth: 'A glove finger is 2–3 mm short after a year (Snyder 1977, cross-sectional).',
};

const digit = ([id, name, [lengthMm, baseMm, jointMm, tipMm]]: (typeof DIGITS)[number]): Measure[] => [
  hand({
    id: `${id}-length`,
    name: `${name} length`,
    kind: 'length',
    definition: `From the crease at the base of the ${name} to its tip, palm side, finger straight.`,
    source: SOURCES.common,
    tapeSdMm: 1.5,
    roughMm: lengthMm,
    ...(id === 'middle-finger' ? MIDDLE_FINGER : {}),
  }),
  hand({
    id: `${id}-base-girth`,
    name: `${name} base girth`,
    kind: 'girth',
    definition: `Round the ${name} at its web, tape square to it.`,
    source: SOURCES.common,
    tapeSdMm: 1.5,
    roughMm: baseMm,
  }),
  hand({
    id: `${id}-joint-girth`,
    name: `${name} joint girth`,
    kind: 'girth',
    definition: `Round the ${id === 'thumb' ? 'only' : 'middle'} joint of the ${name}, slightly bent.`,
    source: SOURCES.common,
    tapeSdMm: 1.5,
    roughMm: jointMm,
  }),
  hand({
    id: `${id}-tip-girth`,
    name: `${name} tip girth`,
    kind: 'girth',
    definition: `Round the ${name} at the bed of the nail.`,
    source: SOURCES.common,
    tapeSdMm: 1.5,
    roughMm: tipMm,
  }),
];

/** Between which fingers, and how far from the wrist crease from memory, mm. */
const WEBS = [
  ['thumb and index finger', 65],
  ['index and middle finger', 100],
  ['middle and ring finger', 98],
  ['ring and little finger', 88],
] as const;

/** Measures of the hand. Ranges: ANSUR II 2012 (grown), Snyder 1977 (children). Reading errors: clinic defaults, from memory of survey repeats. */
export const HAND: readonly Measure[] = [
  hand({
    id: 'hand-girth',
    name: 'hand girth',
    kind: 'girth',
    definition: 'Over the knuckles of index to little finger, open hand, fingers together, thumb out.',
    source: `${SOURCES.schema}; ${SOURCES.ansur}`,
    tapeSdMm: 2,
    usualMm: { M: [190, 212, 236], F: [168, 187, 208] },
  }),
  hand({
    id: 'hand-girth-with-thumb',
    name: 'hand girth with thumb',
    kind: 'girth',
    definition:
      'Over the knuckles and the joint at the base of the thumb, thumb laid into the palm: the widest place that must pass a sleeve.',
    source: SOURCES.common,
    tapeSdMm: 3,
    roughMm: 245,
  }),
  hand({
    id: 'hand-breadth',
    name: 'hand breadth',
    kind: 'breadth',
    definition: 'Straight across the knuckles of index to little finger, thumb out.',
    source: SOURCES.ansur,
    tapeSdMm: 1.5,
    usualMm: { M: [78, 88, 99], F: [70, 78, 87] },
    childrenMm: [
      [42, 51, 60],
      [47, 55, 64],
      [52, 61, 73],
      [58, 68, 79],
      [65, 76, 92],
      [67, 80, 98],
    ],
    yearlyGrowthMm: { M: [2.5, 2.7, 2.1, 3.7, 2.5], F: [2.7, 2.5, 2.6, 2, 0.4] },
    growth: '2–4 mm a year to 14 years (Snyder 1977, cross-sectional).',
  }),
  hand({
    id: 'hand-length',
    name: 'hand length',
    kind: 'length',
    definition: 'From the wrist, at the line of the radial styloid, to the tip of the middle finger, palm up.',
    source: SOURCES.ansur,
    tapeSdMm: 2,
    usualMm: { M: [172, 193, 218], F: [161, 180, 207] },
    childrenMm: [
      [88, 106, 123],
      [101, 117, 136],
      [113, 132, 153],
      [129, 150, 175],
      [144, 168, 196],
      [154, 179, 205],
    ],
    yearlyGrowthMm: { M: [6.9, 5.9, 4.9, 7.7, 4.1], F: [7.7, 5.9, 6.8, 5.3, 0.5] },
    growth: '5–8 mm a year to 14 years (Snyder 1977, cross-sectional).',
  }),
  hand({
    id: 'palm-length',
    name: 'palm length',
    kind: 'length',
    definition: 'From the wrist, at the line of the radial styloid, to the crease at the base of the middle finger, palm up.',
    source: SOURCES.ansur,
    tapeSdMm: 2,
    usualMm: { M: [103, 116, 133], F: [97, 108, 124] },
  }),
  hand({
    id: 'wrist-girth',
    name: 'wrist girth',
    kind: 'girth',
    definition: 'Round the wrist just beyond the styloid of the ulna, square to the arm.',
    source: SOURCES.ansur,
    tapeSdMm: 2,
    usualMm: { M: [156, 176, 199], F: [139, 154, 174] },
    childrenMm: [
      [96, 112, 129],
      [101, 115, 134],
      [104, 124, 152],
      [110, 133, 171],
      [123, 146, 175],
      [127, 157, 188],
    ],
  }),
  hand({
    id: 'thumb-web-girth',
    name: 'girth at the thumb web',
    kind: 'girth',
    definition: 'Round the palm through the web of the thumb.',
    source: SOURCES.common,
    tapeSdMm: 3,
    roughMm: 215,
  }),
  hand({
    id: 'hand-figure-of-eight',
    name: 'figure of eight of the hand',
    kind: 'length',
    definition:
      'From just beyond the styloid of the ulna across the front of the wrist, over the back to the fifth knuckle, across the palm at the knuckles, over the back to the start.',
    source:
      'Two public teaching pages that differ about the palm; read in Leard 2004, doi 10.2519/jospt.2004.34.6.335. Keep to one way in a clinic.',
    tapeSdMm: 4.5,
    roughMm: 430,
  }),
  ...WEBS.map(([between, depthMm], index) =>
    hand({
      id: `web-depth-${index + 1}`,
      name: `wrist to web ${index + 1}`,
      kind: 'length',
      definition: `From the wrist crease to the web between ${between}, along the back of the hand.`,
      source: SOURCES.common,
      tapeSdMm: 2,
      roughMm: depthMm,
    }),
  ),
  ...DIGITS.flatMap(digit),
];
