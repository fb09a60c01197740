import { madeMeasure, SOURCES } from './made-measure';
import type { Measure } from './measure';

const residual = (given: Pick<Measure, 'id' | 'name' | 'definition' | 'roughMm'>): Measure =>
  madeMeasure('residual-limb', 'both', {
    ...given,
    kind: 'length',
    source: SOURCES.common,
    tapeSdMm: 5,
    roughSd: 0.6,
    growth: 'Bone goes on to grow in children; no open figure by age is at hand.',
  });

/**
 * Beside the ladder of a limb that ends early. The ladder goes down from a landmark (or up from the end) to the last place where the tape goes
 * round; what lies beyond is the end cap (`volume/end-cap`). Source: common practice.
 */
export const RESIDUAL_LIMB: readonly Measure[] = [
  residual({
    id: 'residual-leg-length',
    name: 'residual leg length',
    definition:
      'From the zero of the ladder to the soft end: below the knee from the middle of the patellar tendon, above it from the ischial tuberosity or the perineum. Write how long the prosthesis or shrinker was off.',
    roughMm: 160,
  }),
  residual({
    id: 'residual-arm-length',
    name: 'residual arm length',
    definition:
      'From the zero of the ladder to the soft end: below the elbow from the outer epicondyle, above it from the acromion. Write how long the prosthesis or shrinker was off.',
    roughMm: 180,
  }),
];
