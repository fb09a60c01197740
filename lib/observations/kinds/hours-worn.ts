import type { ObservedKind } from '../kind';

/** Wear as told: days of the last week, hours of such a day, and the hours that were planned. */
export const HOURS_WORN: ObservedKind = {
  id: 'hours-worn',
  version: '1',
  label: 'Wear',
  asks: 'On how many days of the last week was it worn, for how many hours, and how many were planned?',
  items: [
    { id: 'days', label: 'Days of seven', unit: 'days', low: 0, high: 7 },
    { id: 'hours', label: 'Hours worn a day', unit: 'h', low: 0, high: 24 },
    { id: 'planned', label: 'Hours planned a day', unit: 'h', low: 0, high: 24 },
  ],
  where: 'nowhere',
  choices: [],
  error: null,
  source: 'Hours and days are asked apart: gains in wear come from days (Uhl & Benigni 2022). As told, not as worn: no error is known.',
};
