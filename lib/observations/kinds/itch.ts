import type { ObservedKind } from '../kind';

/** Itch as a number from 0 to 10, as the person says it. */
export const ITCH: ObservedKind = {
  id: 'itch',
  version: '1',
  label: 'Itch',
  asks: 'How strong is the itch now, from 0, none, to 10, the worst imaginable?',
  items: [{ id: 'itch', label: 'Itch', unit: 'of 10', low: 0, high: 10 }],
  where: 'nowhere',
  choices: [],
  error: {
    leastChange: 2,
    kind: 'clinic default',
    source: 'No published least change was found; numbers of one person wander by a point or two (from memory).',
  },
  source: 'Number from 0 to 10; bands 0, 1–3, 4–7, 8–10 were published for 76 adults. Generic.',
};
