import { describe, expect, it } from 'vitest';
import type { Ladder } from '@/lib/ladder/ladder';
import { LIMBS, type LimbKind } from '@/lib/ladder/limb';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import { limbChange } from '@/lib/trend/limb-change';
import { limbSeries } from '@/lib/trend/limb-series';
import { asNanometres, type LengthUnit, NANOMETRES_IN, type TypedLength } from '@/lib/units/length';
import { seeded } from '@/tests/cohort/random';
import { syntheticLimbs } from '@/tests/cohort/synthetic-limbs';
import type { LimbShape } from '../../cohort/dense-limb';
import { recordOf, visitOf } from '../made-up-ladder';

type SetUp = { readonly zero: 0 | 1 | 2; readonly direction: 'up' | 'down'; readonly intervalMm: number; readonly unit: LengthUnit };

/** A length to the nanometre, as if the tape could be read so finely. */
function exact(lengthMm: number, unit: LengthUnit): TypedLength {
  const nm = asNanometres(Math.round(lengthMm * 1e6));
  return { text: String(nm / Number(NANOMETRES_IN[unit])), unit, nm };
}

/** A dense limb taped without error: every landmark, every interval from zero to the end of the limb. */
function taped(shape: LimbShape, { zero, direction, intervalMm, unit }: SetUp): { ladder: Ladder; startMm: number } {
  const marks = [0, shape.middleMm, shape.proximalMm];
  const start = marks[zero] as number;
  const sign = direction === 'up' ? 1 : -1;
  const rungs = [];
  for (let step = 0; ; step++) {
    const place = start + sign * step * intervalMm;
    if (place < 0 || place > shape.proximalMm) break;
    rungs.push({ distance: exact(step * intervalMm, unit), girth: exact(shape.girthMm(place), unit) });
  }
  const onRuler = LIMBS[shape.limb].landmarks.flatMap((landmark, index) => {
    const distance = sign * ((marks[index] as number) - start);
    return index !== zero && distance > 0 ? [{ landmark, distance: exact(distance, unit) }] : [];
  });
  const zeroId = LIMBS[shape.limb].landmarks[zero];
  const ladder: Ladder = { limb: shape.limb, side: 'left', zero: zeroId, direction, unit, rungs, landmarks: onRuler, floorToFold: null };
  return { ladder, startMm: start };
}

/** Legs are taped every inch to 4 cm. The model arms have an elbow and an armpit that only a finer ladder sees: 2 cm and 1 in. */
const INTERVALS_MM: Readonly<Record<LimbKind, readonly number[]>> = { leg: [25.4, 38.1, 30, 40], arm: [20, 25.4] };

function setUp(limb: LimbKind, random: ReturnType<typeof seeded>): SetUp {
  const zero = random.pick([0, 1, 2] as const);
  const direction = zero === 0 ? 'up' : zero === 2 ? 'down' : random.pick(['up', 'down'] as const);
  return { zero, direction, intervalMm: random.pick(INTERVALS_MM[limb]), unit: random.pick(['in', 'cm'] as const) };
}

describe('one dense limb taped twice from any zero, in any direction, interval and unit', () => {
  it.each(['leg', 'arm'] as const)(
    'has the same volume over the same anatomy to a two-hundredth, and the true one: %s',
    (limb: LimbKind) => {
      // Truth: slices of 1 mm on the dense profile (tests/reference/body/synthetic_leg_arm_profiles.csv), no frusta.
      const random = seeded(4);
      const shapes = syntheticLimbs(limb);
      let compared = 0;
      let worst = 0;
      for (let pair = 0; pair < 400; pair++) {
        const shape = random.pick(shapes);
        const ladders = [taped(shape, setUp(limb, random)), taped(shape, setUp(limb, random))] as const;
        const [series] = limbSeries(
          recordOf([visitOf('2026-01-05', [ladders[0].ladder]), visitOf('2026-02-02', [ladders[1].ladder])]),
          DEFAULT_POLICY,
        );
        const [earlier, later] = series?.visits ?? [];
        if (!earlier || !later) throw new Error('no pair');
        const change = limbChange(earlier, later, limb, DEFAULT_POLICY);
        if (isNoAnswer(change) || change.measured.shared.earlier.toMm - change.measured.shared.earlier.fromMm < 0.6 * shape.proximalMm)
          continue;
        const { fromMm, toMm } = change.measured.shared.earlier;
        let truth = 0;
        const slices = Math.round(toMm - fromMm);
        for (let slice = 0; slice < slices; slice++) {
          const at = fromMm + ladders[0].startMm + ((slice + 0.5) * (toMm - fromMm)) / slices;
          truth += (shape.girthMm(at) ** 2 / (4 * Math.PI)) * ((toMm - fromMm) / slices);
        }
        compared += 1;
        const off = [change.measured.volume.ratio, change.measured.earlierVolumeMm3 / truth, change.measured.laterVolumeMm3 / truth];
        worst = Math.max(worst, ...off.map((ratio) => Math.abs(ratio - 1)));
        expect(change.measured.length.ratio).toBeCloseTo(1, 6);
      }
      expect(compared).toBeGreaterThan(100);
      expect(worst).toBeLessThan(0.005);
    },
  );
});
