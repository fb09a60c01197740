import type { ShiftFinding } from '@/lib/alignment/shift-check';
import type { Ladder } from '@/lib/ladder/ladder';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import { checkedChange } from '@/lib/trend/checked-change';
import { limbChange } from '@/lib/trend/limb-change';
import { limbSeries } from '@/lib/trend/limb-series';
import { recordOf, visitOf } from '@/tests/lib/made-up-ladder';
import type { LimbShape } from './dense-limb';
import { seeded } from './random';
import { type Taping, tapeLadder } from './tape-ladder';
import { ORDINARY } from './taped-person';

/**
 * A pair of ladders of an unchanged limb whose zeros truly lie apart.
 *
 * `shiftMm` is the whole of what is planted: the later zero lies exactly so much nearer the trunk than the earlier one, whose own
 * placement error is ordinary. `clean` leaves both zeros to ordinary placement (SD 0.5 cm each). Every other error is ordinary.
 */
export type ShiftScenario = {
  readonly name: string;
  readonly shiftMm: number | 'clean';
  readonly landmarks: Taping['landmarks'];
  readonly direction: 'up' | 'down';
  readonly intervalMm: number;
  /** Girth swelling of the later ladder, as a share. */
  readonly swelling?: number;
  /** The later girths written one row too low, or one ladder in the other unit. */
  readonly slip?: 'row' | 'unit';
};

/** How often each finding came, and the RMS error of the stated shift, mm. */
export type ShiftTally = { readonly findings: Readonly<Record<ShiftFinding | 'none', number>>; readonly errorMm: number };

/** Runs a scenario on limbs of a pool, from a seed. */
export function shiftCohort(scenario: ShiftScenario, pool: readonly LimbShape[], pairs: number, seed: number): ShiftTally {
  const random = seeded(seed);
  const findings: Record<ShiftFinding | 'none', number> = {
    none: 0,
    'zero-moved': 0,
    'interval-slipped': 0,
    'cannot-tell': 0,
    'inch-centimetre': 0,
  };
  let squares = 0;
  for (let pair = 0; pair < pairs; pair++) {
    const shape = random.pick(pool);
    const size = 0.9 + 0.4 * random.uniform();
    const tape = (zeroOffMm: number, swelling: number) =>
      tapeLadder(
        { shape, stretch: 1, factor: () => size * (1 + swelling) },
        'left',
        {
          ...ORDINARY,
          unit: 'cm',
          intervalMm: scenario.intervalMm,
          direction: scenario.direction,
          landmarks: scenario.landmarks,
          tension: random.normal(0.004),
          movedZeroMm: 0,
          zeroOffMm,
        },
        random,
      );
    const earlierOff = random.normal(ORDINARY.placementSdMm);
    const laterOff = scenario.shiftMm === 'clean' ? random.normal(ORDINARY.placementSdMm) : earlierOff + scenario.shiftMm;
    const earlier = tape(earlierOff, 0);
    const later = tape(laterOff, scenario.swelling ?? 0);
    const shift = checked(earlier.ladder, slipped(later.ladder, scenario.slip));
    findings[shift?.finding ?? 'none'] += 1 / pairs;
    squares += ((shift?.mm ?? 0) - (laterOff - earlierOff)) ** 2;
  }
  return { findings, errorMm: Math.sqrt(squares / pairs) };
}

function checked(earlier: Ladder, later: Ladder) {
  const [series] = limbSeries(recordOf([visitOf('2026-01-05', [earlier]), visitOf('2026-02-02', [later])]), DEFAULT_POLICY);
  const [first, second] = series?.visits ?? [];
  if (!first || !second) throw new Error('a pair without its ladders');
  const change = limbChange(first, second, earlier.limb, DEFAULT_POLICY);
  return isNoAnswer(change) ? undefined : checkedChange(change, DEFAULT_POLICY).shift;
}

function slipped(ladder: Ladder, slip: ShiftScenario['slip']): Ladder {
  if (!slip) return ladder;
  const girths = ladder.rungs.map((rung) => rung.girth);
  if (slip === 'row')
    return { ...ladder, rungs: ladder.rungs.slice(0, -1).map((rung, index) => ({ ...rung, girth: girths[index + 1] ?? null })) };
  const asInches = (nm: number) => Math.round(nm / 2.54);
  return {
    ...ladder,
    rungs: ladder.rungs.map((rung) => ({ ...rung, girth: rung.girth && { ...rung.girth, nm: asInches(rung.girth.nm) as never } })),
  };
}
