import { placeLandmarks } from '@/lib/alignment/place-landmarks';
import type { LimbOnSheet } from '@/lib/doubts/limb-on-sheet';
import { sheetDoubts } from '@/lib/doubts/sheet-doubts';
import type { LastLadder, TapingDay } from '@/lib/growth/expected-ladder';
import type { Doubt } from '@/lib/ladder/doubt';
import type { Ladder } from '@/lib/ladder/ladder';
import type { LimbKind, Side } from '@/lib/ladder/limb';
import { tapedLine } from '@/lib/ladder/taped-line';
import { calendarDay } from '@/lib/units/calendar-day';
import { exactText } from '@/lib/units/exact-text';
import { heldOutLimbs, tunedLimbs } from '@/tests/cohort/limb-shape';
import type { Random } from '@/tests/cohort/random';
import { tapeLadder } from '@/tests/cohort/tape-ladder';
import type { LimbShape } from '../cohort/dense-limb';

const PLACEMENT_MM = 5;
const DAY = calendarDay('2026-06-01');

/** One limb of a grown person at two visits half a year apart, 24 rungs each, with the clinic's usual tape errors and another weight. */
export type TwoVisits = { readonly earlier: Ladder; readonly later: Ladder; readonly last: LastLadder; readonly today: TapingDay };

const SHAPES = {
  synthetic: { leg: tunedLimbs('leg'), arm: tunedLimbs('arm') },
  heldOut: { leg: heldOutLimbs('leg'), arm: heldOutLimbs('arm') },
};

/** Which shapes: model bodies, or real people on whom nothing was tuned. */
export type Pool = keyof typeof SHAPES;

/**
 * Tapes a model limb twice: reading SD 3 mm, placing SD 5 mm, tension SD 0.4 %, weight changed by 5 % (SD), girth following it with
 * 1 % of its own. `swelling` is extra girth at both visits, changed by 3 % (SD) between them.
 */
export function twoVisits(
  random: Random,
  limb: LimbKind,
  pool: Pool,
  side: Side = 'left',
  swelling = 0,
  common?: { shape: LimbShape; size: number; weight: number },
): TwoVisits {
  const shape = common?.shape ?? random.pick(SHAPES[pool][limb]);
  const size = common?.size ?? 0.9 + 0.4 * random.uniform();
  const weightRatio = common?.weight ?? Math.exp(random.normal(0.05));
  const unit = random.uniform() < 0.5 ? 'in' : 'cm';
  const own = Math.exp(random.normal(0.01));
  const change = swelling === 0 ? 0 : random.normal(0.03);
  const taping = () => ({
    unit: unit as 'in' | 'cm',
    intervalMm: unit === 'in' ? Math.round(shape.proximalMm / 24.4 / 3.175) * 3.175 : Math.round(shape.proximalMm / 24.4),
    direction: 'up' as const,
    landmarks: 'all' as const,
    readingSdMm: 3,
    placementSdMm: PLACEMENT_MM,
    tension: random.normal(0.004),
    movedZeroMm: 0,
  });
  const tape = (factor: number) => spelled(tapeLadder({ shape, stretch: 1, factor: () => factor }, side, taping(), random).ladder);
  const earlier = tape(size * (1 + swelling));
  const later = tape(size * (1 + swelling + change) * weightRatio ** 0.45 * own);
  const heightMm = { value: shape.proximalMm / (limb === 'leg' ? 0.43 : 0.27), day: DAY, daysAway: 0 };
  const body = (kg: number) => ({ heightMm, weightKg: { value: kg, day: DAY, daysAway: 0 } });
  const placed = placeLandmarks([{ day: 0, line: tapedLine(earlier), bodyHeightMm: heightMm.value }], limb, false, PLACEMENT_MM)[0];
  if (!placed) throw new Error('no line');
  const girthsNm = earlier.rungs.map((rung) => [rung.distance.nm / 1e6, rung.girth?.nm ?? 0] as const);
  const usual = { girthsMm: placed.line.girthsMm, ladders: placed.line.girthsMm.map(() => 1) };
  const last = { placed, body: body(70), growing: false, words: '14 Oct', girthsNm, girthAtJoint: false, doubtfulMm: [], usual };
  return { earlier, later, last, today: { day: 182, body: body(70 * weightRatio), tape: { readingMm: 3, placementMm: PLACEMENT_MM } } };
}

/** The same figures spelled as people type them: `12 1/8`, `31.4`. */
function spelled(ladder: Ladder): Ladder {
  const rungs = ladder.rungs.map((rung) =>
    rung.girth ? { ...rung, girth: { ...rung.girth, text: exactText(rung.girth.nm, ladder.unit) } } : rung,
  );
  return { ...ladder, rungs };
}

/** Every question asked while a ladder is typed rung by rung, each place and kind once. */
export function askedWhileTyping(ladder: Ladder, last: LastLadder | undefined, today: TapingDay, affected = false): Doubt[] {
  const rowsMm = ladder.rungs.map((rung) => rung.distance.nm / 1e6);
  const asked = new Map<string, Doubt>();
  for (let typed = 1; typed <= ladder.rungs.length; typed++) {
    const limb: LimbOnSheet = { ladder: { ...ladder, rungs: ladder.rungs.slice(0, typed) }, rowsMm, affected, last };
    for (const { doubt } of sheetDoubts([limb], today)) asked.set(`${doubt.kind} ${doubt.distanceMm}`, doubt);
  }
  return [...asked.values()];
}

/** So many rungs of a ladder, evenly spread, the outer ones among them. */
export function thinned(ladder: Ladder, rungs: number): Ladder {
  const last = ladder.rungs.length - 1;
  const kept = new Set(Array.from({ length: rungs }, (_, index) => Math.round((index * last) / (rungs - 1))));
  return { ...ladder, rungs: ladder.rungs.filter((_, index) => kept.has(index)) };
}

/** Places asked about, each once, whatever the question; a question about the whole ladder counts as one. */
export function placesAsked(doubts: readonly Doubt[]): number {
  return new Set(doubts.map((doubt) => doubt.distanceMm ?? 'whole')).size;
}

/** Both legs of one person at two visits, the right one swollen, as they stand on the sheet when both are typed. */
export function limbPair(random: Random, pool: Pool, swelling: number) {
  const shape = random.pick(SHAPES[pool].leg);
  const common = { shape, size: 0.9 + 0.4 * random.uniform(), weight: Math.exp(random.normal(0.05)) };
  const right = twoVisits(random, 'leg', pool, 'right', swelling, common);
  const left = twoVisits(random, 'leg', pool, 'left', 0, common);
  const onSheet = (visits: TwoVisits, affected: boolean): LimbOnSheet => ({
    ladder: visits.later,
    rowsMm: visits.later.rungs.map((rung) => rung.distance.nm / 1e6),
    affected,
    last: visits.last,
  });
  const limbs: readonly [LimbOnSheet, LimbOnSheet] = [onSheet(right, swelling > 0), onSheet(left, false)];
  return { limbs, today: right.today, earlier: right.earlier };
}
