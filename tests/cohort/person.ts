import { exponentsAt } from '@/lib/growth/girth-exponents';
import { valueAtZ } from '@/lib/growth/z-score';
import type { LimbKind, Side } from '@/lib/ladder/limb';
import { isNoAnswer } from '@/lib/outcome';
import { type CalendarDay, calendarDay, dayFromNumber, dayNumber } from '@/lib/units/calendar-day';
import type { LimbShape } from './dense-limb';
import type { Random } from './random';

/** How a made-up person's body goes on: `still` (weight wavers by 1.5 %), `weight` (5 to 12 % up or down), `child` (grows). */
export type Course = 'still' | 'weight' | 'child';

/** A made-up person whose limbs are known exactly on every day. */
export type Person = {
  readonly born: CalendarDay;
  readonly sex: 'F' | 'M';
  readonly shape: LimbShape;
  readonly bodyOn: (day: number) => { readonly heightMm: number; readonly weightKg: number };
  /** Length of the limb against its shape, and girth at an anatomical place against it, without swelling. */
  readonly stretchOn: (day: number) => number;
  readonly girthOn: (side: Side, place: number, day: number) => number;
};

/** Day 0 of every simulation. */
export const START = dayNumber(calendarDay('2026-01-05'));

/**
 * How a healthy limb's girth wanders about what weight and height explain: a random walk, SD 1.0, 1.35 and 1.9 % after 6, 12 and 24 months.
 *
 * Source: Berkeley calf, rms of the weight–height rule 0.9, 1.5 and 2.0 % (computed, tests/reference/body). From day to day see
 * `SHORT_TERM_SD`.
 */
const WANDER_VARIANCE_PER_DAY = 5e-7;
const WEEKS = 130;

/** SD of girth from one day to another beside the tape: 0.2 % a visit. Source: what is left of an SEM of 1.2–1.4 % of leg volume (Lymphat Res Biol 2022). */
export const SHORT_TERM_SD = 0.002;

/** A random walk in weekly steps from the start, linear between. */
function wander(share: number, random: Random): (day: number) => number {
  const steps = [0];
  for (let week = 1; week <= WEEKS; week++)
    steps.push((steps[week - 1] as number) + random.normal(Math.sqrt(7 * WANDER_VARIANCE_PER_DAY * share)));
  return (day) => {
    const week = Math.min(Math.max((day - START) / 7, 0), WEEKS - 1);
    const below = Math.floor(week);
    return (steps[below] as number) + (week - below) * ((steps[below + 1] as number) - (steps[below] as number));
  };
}

/** One person: of the wandering, seven tenths of the variance are common to both limbs, a tenth tilts it along the limb, the rest is each limb's own. */
export function person(course: Course, shape: LimbShape, random: Random): Person {
  const sex = random.uniform() < 0.5 ? 'F' : 'M';
  const age = course === 'child' ? 4 + 9 * random.uniform() : 25 + 45 * random.uniform();
  const born = dayFromNumber(START - Math.round(age * 365.25));
  const bodyOn = course === 'child' ? childBody(born, sex, random) : adultBody(course, sex, random);
  const size = 0.88 + 0.37 * random.uniform();
  const lengthened = course === 'child' ? (0.42 * bodyOn(START).heightMm) / (shape.limb === 'leg' ? 1 : 1.5) / shape.proximalMm : 1;
  const lengthExponent = (shape.limb === 'leg' ? 1.2 : 1.1) + random.normal(0.08);
  const common = wander(0.7, random);
  const own = { left: wander(0.2, random), right: wander(0.2, random) };
  const tilt = wander(0.1, random);
  const start = bodyOn(START);
  return {
    born,
    sex,
    shape,
    bodyOn,
    stretchOn: (day) => (course === 'child' ? lengthened * (bodyOn(day).heightMm / start.heightMm) ** lengthExponent : 1),
    girthOn: (side, place, day) => {
      const body = bodyOn(day);
      const exponents = trueExponents(shape.limb, course === 'child', sex, place);
      const explained = (body.weightKg / start.weightKg) ** exponents.weight * (body.heightMm / start.heightMm) ** exponents.height;
      const wandered = common(day) + own[side](day) + tilt(day) * (place - 1);
      return lengthened * size * explained * Math.exp(wandered);
    },
  };
}

/** Snyder 1977, boys and girls apart, unrounded weights (body size elasticities); heights as the engine. Adults: the engine's own table. */
function trueExponents(limb: LimbKind, growing: boolean, sex: 'F' | 'M', place: number): { weight: number; height: number } {
  const engine = exponentsAt(limb, growing, place);
  if (!growing) return engine;
  const sites =
    limb === 'leg' ? (sex === 'M' ? [0.43, 0.49, 0.63] : [0.38, 0.49, 0.62]) : sex === 'M' ? [0.44, 0.51, 0.76] : [0.37, 0.44, 0.67];
  const [low, middle, high] = sites as [number, number, number];
  const at = limb === 'leg' ? [0.1, 0.69, 1.85] : [0, 0.75, 1.5];
  const [from, knee, to] = at as [number, number, number];
  const along = Math.min(Math.max(place, from), to);
  const weight =
    along <= knee ? low + ((along - from) / (knee - from)) * (middle - low) : middle + ((along - knee) / (to - knee)) * (high - middle);
  return { weight, height: engine.height };
}

function adultBody(course: Course, sex: 'F' | 'M', random: Random) {
  const heightMm = sex === 'F' ? 1628 + random.normal(64) : 1756 + random.normal(69);
  const weightKg = (sex === 'F' ? 68 : 85) * Math.exp(random.normal(0.15));
  const yearly = course === 'weight' ? (random.uniform() < 0.5 ? -1 : 1) * (0.05 + 0.07 * random.uniform()) * 2 : random.normal(0.015);
  return (day: number) => ({
    heightMm,
    weightKg: weightKg * Math.exp((yearly * Math.min(day - START, 183)) / 183 / (course === 'weight' ? 2 : 1)),
  });
}

/** Height z drifts by 0.18 and weight z by 0.27 a year (SD; Berkeley, 5 to 15 years), each along a random walk. */
function childBody(born: CalendarDay, sex: 'F' | 'M', random: Random) {
  const heightZ = random.normal(0.9);
  const weightZ = 0.7 * heightZ + random.normal(0.6);
  const yearly = Math.sqrt(365.25 * WANDER_VARIANCE_PER_DAY);
  const heightDrift = wander((0.18 / yearly) ** 2, random);
  const weightDrift = wander((0.27 / yearly) ** 2, random);
  const known = new Map<number, { heightMm: number; weightKg: number }>();
  return (day: number) => {
    const before = known.get(day);
    if (before) return before;
    const height = valueAtZ('cdc-2000', 'height', sex, day - dayNumber(born), heightZ + heightDrift(day));
    const weight = valueAtZ('cdc-2000', 'weight', sex, day - dayNumber(born), weightZ + weightDrift(day));
    if (isNoAnswer(height) || isNoAnswer(weight)) throw new RangeError('a made-up child outside the tables');
    const body = { heightMm: height.value * 10, weightKg: weight.value };
    known.set(day, body);
    return body;
  };
}
