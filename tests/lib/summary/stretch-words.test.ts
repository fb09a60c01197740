import { describe, expect, it } from 'vitest';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { stretchesInWords } from '@/lib/summary/stretch-words';
import { limbSeries } from '@/lib/trend/limb-series';
import { volumeOverTime } from '@/lib/trend/volume-over-time';
import { ladderOf, recordOf, visitOf } from '../made-up-ladder';

function saidOf(leftTo: number, rightTo: number): string {
  const girths = (to: number) => [4, 12, 20, 28, 36, to].map((place) => [place, 20 + place / 2] as const);
  const both = [
    ladderOf({ side: 'left', girths: girths(leftTo), landmarks: { knee: 28 } }),
    ladderOf({ side: 'right', girths: girths(rightTo), landmarks: { knee: 28 } }),
  ];
  const drawn = limbSeries(recordOf([visitOf('2026-01-05', both)]), DEFAULT_POLICY).flatMap((series) => {
    const over = volumeOverTime(series, DEFAULT_POLICY);
    return over ? [{ series, over }] : [];
  });
  expect(drawn).toHaveLength(2);
  return stretchesInWords(drawn).replaceAll('\u202f', ' ');
}

describe('the stretch of volumes', () => {
  it('is said once where both limbs were taped over the same', () => {
    expect(saidOf(44, 44)).toBe('4.0–44.0 cm up from the ankle crease');
  });

  it('is said of each limb where the two differ, and that their volumes are not to be set against each other', () => {
    expect(saidOf(44.5, 44)).toBe(
      'left 4.0–44.5 cm up from the ankle crease, right 4.0–44.0 cm up from the ankle crease: each over its own stretch, not to be set against each other',
    );
  });
});
