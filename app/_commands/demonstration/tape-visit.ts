import type { TypedLadder, TypedVisit } from '@/db/patients/visits';
import { valueAtZ } from '@/lib/growth/z-score';
import type { LandmarkReading, Rung } from '@/lib/ladder/ladder';
import { LIMBS, type Side } from '@/lib/ladder/limb';
import { isNoAnswer } from '@/lib/outcome';
import { type CalendarDay, daysBetween } from '@/lib/units/calendar-day';
import { type Hand, typedHeight, typedLength, typedMass } from './hand';
import { type Body, footCm, type MadeUpLimb, madeUpLimb } from './made-up-limb';
import { measuresOn } from './measure-visit';
import { type SeededRandom, seededRandom } from './seeded-random';
import type { Story, StoryVisit } from './story';

/** How well the made-up staff tape, SD: a girth, a landmark or zero, the tension of a visit. Common practice of good taping. */
const READING_CM = 0.15;
const PLACING_CM = 0.25;
const TENSION = 0.003;

/**
 * A visit of a story on its day: body, ladders and texts, with the small errors of real taping from a fixed seed.
 *
 * The limb underneath is exact; the ladder is what a person would have read off a tape and typed.
 */
export function tapeVisit(story: Story, number: number, planned: StoryVisit, born: CalendarDay, day: CalendarDay): TypedVisit {
  const random = seededRandom(`${story.reference} visit ${number}`);
  const body = bodyOn(story, planned, daysBetween(born, day));
  const tension = 1 + TENSION * random.normal();
  const unit = story.taping.unit;
  const height = body.heightCm + (story.heightCm ? 0 : 0.15 * random.normal());
  return {
    day,
    time: planned.time,
    posture: planned.posture,
    measurer: planned.by,
    height: typedHeight(height, unit, planned.by),
    weight: typedMass(body.weightKg, unit === 'in' ? 'lb' : 'kg'),
    note: planned.note ?? null,
    ladders: story.taping.sides.map((side) => tapeLadder(story, planned, body, side, tension, random)),
    ...(story.measures ? { measures: measuresOn(story.reference, number, story.measures, unit, planned.by) } : {}),
  };
}

/** The true height and weight of a story's person on a day. */
function bodyOn(story: Story, { body }: StoryVisit, ageDays: number): Body {
  if ('weightKg' in body) return { heightCm: story.heightCm ?? 0, weightKg: body.weightKg };
  const height = valueAtZ('cdc-2000', 'height', story.sex, ageDays, body.heightZ);
  const weight = valueAtZ('cdc-2000', 'weight', story.sex, ageDays, body.weightZ);
  if (isNoAnswer(height) || isNoAnswer(weight)) throw new RangeError(`${story.reference} has a child's story and no child's age`);
  return { heightCm: height.value, weightKg: weight.value };
}

function tapeLadder(story: Story, planned: StoryVisit, body: Body, side: Side, tension: number, random: SeededRandom): TypedLadder {
  const { taping } = story;
  const factor = story.affected.includes(side) ? story.affectedFactor : 1;
  const limb = madeUpLimb(story.reference, taping.limb, side, story.shape, factor);
  const moved = planned.zeroLowCm?.side === side ? planned.zeroLowCm.cm : 0;
  const zeroLow = moved + PLACING_CM * random.normal();
  const proximal = limb.proximalCm(body);
  const onRuler = (heightCm: number): number => (taping.direction === 'up' ? heightCm + zeroLow : proximal - heightCm + zeroLow);
  const onLimb = (rulerCm: number): number => (taping.direction === 'up' ? rulerCm - zeroLow : proximal + zeroLow - rulerCm);
  const marks = landmarksOf(story, planned.by, limb, body, onRuler, random);
  const last = marks.find(({ landmark }) => landmark === LIMBS[taping.limb].landmarks[taping.direction === 'up' ? 2 : 0]);
  const rungs = rulerPlaces(story, last ? last.distance.nm / 1e7 : null).map((rulerCm): Rung => {
    const distance = typedLength(rulerCm, taping.unit, planned.by);
    const true_ = limb.girthCm(onLimb(distance.nm / 1e7), body, (place) => planned.swelling?.(side, place) ?? 1);
    const read = true_ * tension + READING_CM * random.normal();
    return { distance, girth: typedLength(planned.inchesTypedAsCm ? read / 2.54 : read, taping.unit, planned.by) };
  });
  const fold = footCm(story.shape, body) + proximal;
  return {
    limb: taping.limb,
    side,
    zero: taping.zero,
    direction: taping.direction,
    unit: taping.unit,
    intervalText: typedLength(taping.interval * (taping.unit === 'in' ? 2.54 : 1), taping.unit, planned.by).text,
    rungs,
    landmarks: marks,
    floorToFold: taping.floorToFold ? typedHeight(fold, taping.unit, planned.by) : null,
  };
}

function landmarksOf(
  story: Story,
  by: Hand,
  limb: MadeUpLimb,
  body: Body,
  onRuler: (heightCm: number) => number,
  random: SeededRandom,
): LandmarkReading[] {
  const heights = [0, limb.middleCm(body), limb.proximalCm(body)];
  return story.taping.landmarks.map((which) => ({
    landmark: LIMBS[story.taping.limb].landmarks[which],
    distance: typedLength(onRuler(heights[which] as number) + PLACING_CM * random.normal(), story.taping.unit, by),
  }));
}

/** Places on the ruler, cm: whole intervals, then the odd last one at the last landmark. */
function rulerPlaces(story: Story, lastCm: number | null): number[] {
  const { interval, unit, rungs } = story.taping;
  const stepCm = interval * (unit === 'in' ? 2.54 : 1);
  if (rungs !== 'whole') return Array.from({ length: rungs }, (_, index) => (index + 1) * stepCm);
  if (lastCm === null) throw new RangeError(`${story.reference} tapes to a landmark that is not read`);
  const places: number[] = [];
  for (let place = stepCm; place < lastCm - 0.3 * stepCm; place += stepCm) places.push(place);
  return [...places, lastCm];
}
