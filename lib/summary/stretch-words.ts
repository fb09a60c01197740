import { stretchOnTape } from '../ladder/place-on-tape';
import { rulerOf } from '../trend/limb-series';
import type { LimbSeries } from '../trend/series-visit';
import type { VolumeOverTime } from '../trend/volume-over-time';

/**
 * The stretch over which each limb's volumes are counted, on the tape of its newest ladder; each by its side where the limbs differ.
 *
 * Volumes of two limbs over stretches of their own must not be taken from each other: then it says so.
 * Example: `1.5–23.5 in up from the ankle crease`; `left 1.5–23.75 in up from the ankle crease, right 1.5–23.5 in up from the ankle crease: each
 * over its own stretch, not to be set against each other`.
 */
export function stretchesInWords(drawn: readonly { readonly series: LimbSeries; readonly over: VolumeOverTime }[]): string {
  const stretches = drawn.flatMap(({ series, over }) => {
    const newest = series.visits.at(-1);
    return newest ? [{ side: series.side, words: stretchOnTape(...over.spanMm, rulerOf(newest)) }] : [];
  });
  const [first, ...others] = stretches;
  if (!first || others.every(({ words }) => words === first.words)) return first?.words ?? '';
  return `${stretches.map(({ side, words }) => `${side} ${words}`).join(', ')}: each over its own stretch, not to be set against each other`;
}
