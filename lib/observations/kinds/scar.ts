import type { ObservedKind } from '../kind';

const points = { unit: 'of 10', low: 0, high: 10 } as const;

/**
 * A scar in four plain items from 0 (as the skin beside it) to 10 (the worst imaginable). Generic items in words of this program: no published
 * scale is copied, and its totals are not those of one. No sum is made: items of scars do not measure one thing.
 */
export const SCAR: ObservedKind = {
  id: 'scar',
  version: '1',
  label: 'Scar',
  asks: 'Against the skin beside it, 0 is the same and 10 the worst imaginable.',
  items: [
    { id: 'redness', label: 'Redness', ...points },
    { id: 'height', label: 'Height', ...points },
    { id: 'firmness', label: 'Firmness', ...points },
    { id: 'colour', label: 'Colour', ...points },
  ],
  where: 'side',
  choices: [],
  error: {
    leastChange: 2,
    kind: 'clinic default',
    source: 'Raters of scars agree below .70 unless several are averaged (Lee 2019, Burns 45:1311): less than 2 of 10 points is no change.',
  },
  source: 'Generic items; the rater is kept with each, because a change between two raters is said to be by another.',
};
