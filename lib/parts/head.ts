import { madeMeasure, SOURCES } from './made-measure';
import type { Measure } from './measure';

const head = (given: Parameters<typeof madeMeasure>[2]): Measure => madeMeasure('head', 'middle', given);

/** Measures of head and face. Ranges: ANSUR II 2012 (grown), Snyder 1977 (children). Reading errors: clinic defaults. */
export const HEAD: readonly Measure[] = [
  head({
    id: 'head-girth',
    name: 'head girth',
    kind: 'girth',
    definition: 'The largest girth, above the brow ridges and over the back of the head; hair lies under the tape.',
    source: SOURCES.ansur,
    tapeSdMm: 3,
    usualMm: { M: [538, 574, 614], F: [521, 560, 611] },
    childrenMm: [
      [459, 495, 535],
      [471, 505, 543],
      [480, 515, 558],
      [489, 529, 572],
      [501, 539, 582],
      [512, 552, 601],
    ],
    yearlyGrowthMm: { M: [6.1, 3.8, 3.3, 4.8, 7.6], F: [7.7, 6.2, 3.7, 3.4, 0.9] },
    growth: '3–8 mm a year (Snyder 1977, cross-sectional).',
  }),
  head({
    id: 'forehead-girth',
    name: 'forehead girth',
    kind: 'girth',
    definition: 'Level round the head just above the brows.',
    source: SOURCES.common,
    tapeSdMm: 4,
    roughMm: 555,
  }),
  head({
    id: 'chin-arc',
    name: 'chin arc',
    kind: 'length',
    definition: 'From the front of one ear opening over the chin to the other.',
    source: SOURCES.ansur,
    tapeSdMm: 3,
    usualMm: { M: [300, 331, 365], F: [280, 311, 344] },
  }),
  head({
    id: 'under-jaw-arc',
    name: 'under-jaw arc',
    kind: 'length',
    definition: 'From the front of one ear opening under the jaw to the other.',
    source: SOURCES.ansur,
    tapeSdMm: 4,
    usualMm: { M: [279, 315, 355], F: [255, 288, 324] },
  }),
  head({
    id: 'face-length',
    name: 'face length',
    kind: 'length',
    definition: 'Straight from the bottom of the chin to the root of the nose.',
    source: SOURCES.ansur,
    tapeSdMm: 2,
    usualMm: { M: [108, 123, 138], F: [100, 113, 128] },
  }),
];
