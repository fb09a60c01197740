import type { ObservedKind } from '../kind';

/** Pressure read under a piece, at its site on the limb, in a posture. */
export const GARMENT_PRESSURE: ObservedKind = {
  id: 'garment-pressure',
  version: '1',
  label: 'Pressure under the piece',
  asks: 'What does the sensor read under the piece, at which site and in which posture? The mean of three readings.',
  items: [{ id: 'mmHg', label: 'Pressure', unit: 'mmHg', low: 1, high: 200 }],
  where: 'site',
  choices: ['lying', 'sitting', 'standing', 'moving'],
  error: {
    leastChange: 7,
    kind: 'published',
    source: 'Sensors are good to ±2.5 mmHg (Macintyre 2007, Burns): two readings differ by 6.9 mmHg by chance, 1.96 × √2 × 2.5.',
  },
  source: 'Site, posture and rest or moving go with a reading; another site or posture is not compared (common practice).',
};
