import { describe, expect, it } from 'vitest';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import { limbSeries, tapeErrorOf } from '@/lib/trend/limb-series';
import { namedSegments } from '@/lib/volume/named-segments';
import { ladderOf, recordOf, visitOf } from '../made-up-ladder';

const CYLINDER = [4, 12, 20, 28, 36, 44].map((place) => [place, 10 * Math.PI] as const);

function segmentsOf(ladder: ReturnType<typeof ladderOf>) {
  const at = limbSeries(recordOf([visitOf('2026-01-01', [ladder])]), DEFAULT_POLICY)[0]?.visits[0];
  if (!at) throw new Error('no ladder');
  return namedSegments(at.placed, 'leg', tapeErrorOf(DEFAULT_POLICY), 0.004);
}

describe('named segments', () => {
  it('are cut exactly at the middle landmark: a cylinder of radius 5 cm holds 25π ml a centimetre', () => {
    const [lower, upper] = segmentsOf(ladderOf({ girths: CYLINDER, landmarks: { knee: 25, 'gluteal-fold': 44 } }));
    expect(lower).toMatchObject({ name: 'lower leg', part: true });
    expect(upper).toMatchObject({ name: 'thigh', part: false });
    const volumes = [lower, upper].map((one) => (one && !isNoAnswer(one.volume) ? one.volume.volumeMl : Number.NaN));
    expect(volumes[0]).toBeCloseTo(25 * Math.PI * 21, 2);
    expect(volumes[1]).toBeCloseTo(25 * Math.PI * 19, 2);
  });

  it('are not guessed where the landmark between them was not taped', () => {
    for (const segment of segmentsOf(ladderOf({ girths: CYLINDER }))) expect(segment.volume).toHaveProperty('noAnswer');
  });

  it('without landmarks at their far ends are those of the taped part, and say so', () => {
    const [lower, upper] = segmentsOf(ladderOf({ girths: CYLINDER, landmarks: { knee: 25 } }));
    const volumes = [lower, upper].map((one) => (one && !isNoAnswer(one.volume) ? one.volume.volumeMl : Number.NaN));
    expect(volumes[0]).toBeCloseTo(25 * Math.PI * 21, 2);
    expect(volumes[1]).toBeCloseTo(25 * Math.PI * 19, 2);
    expect(upper?.part).toBe(true);
  });

  it('of which no two places were taped have no volume, with the reason, and are not called a part', () => {
    for (const knee of [44, 48]) {
      const [lower, upper] = segmentsOf(ladderOf({ girths: CYLINDER, landmarks: { knee, 'gluteal-fold': 60 } }));
      expect(lower).toMatchObject({ part: true });
      expect(upper).toEqual({ name: 'thigh', part: false, volume: { noAnswer: 'No two places of it were measured.' } });
    }
  });
});
