import { exponentsAt } from '@/lib/growth/girth-exponents';
import type { Side } from '@/lib/ladder/limb';
import type { PatientRecord, Visit } from '@/lib/record/patient-record';
import { dayFromNumber } from '@/lib/units/calendar-day';
import type { LimbShape } from './dense-limb';
import { anatomyOf } from './limb-shape';
import { type Person, person, START } from './person';
import type { Random } from './random';
import { tapeLadder, typed } from './tape-ladder';
import { type SetUp, weighed } from './taped-person';

/**
 * What the engine does not assume of these people: each line its own figure, none read from the engine.
 *
 * Exponents: each person's own factor on what weight explains and on what height explains (SD 20 %). Drift: an Ornstein–Uhlenbeck wander that
 * forgets in a year, not a random walk, half of it common to both limbs, with a bend along the limb. Reading errors with heavy tails
 * (one in twenty three times as wide), places that lean the same way at all landmarks of a ladder, measurers with habits of 0.5 %.
 * Values from memory of anthropometry texts; none tuned.
 */
const OWN_EXPONENT_SD = 0.2;
const WANDER_SD = { common: 0.006, own: 0.004, bend: 0.002 };
const FORGETS_YEARS = 1;
const HABIT_SD = 0.005;
const ADULT_WEIGHT_SD = 0.04;

/** Where a limb is swollen: by anatomical place, 0 distal landmark, 1 middle, 2 proximal. */
export type Swollen = 'whole' | 'far' | 'near' | 'joint';

export type CourseScenario = {
  readonly limb: 'leg' | 'arm';
  readonly who: 'adult' | 'child';
  readonly visits: number;
  readonly days: number;
  readonly otherLimb: boolean;
  /** Errors of the tape against the ordinary ones. */
  readonly errors: number;
  readonly swelling: number;
  readonly where: Swollen;
  /** Days over which it comes; 0 at once. */
  readonly comesOver: number;
  /** The newest visit by another measurer whose habit nobody knows (1 %). */
  readonly otherMeasurer: boolean;
};

export type CoursePerson = {
  readonly record: PatientRecord;
  /** Share of girth swollen at a visit (index) and anatomical place. */
  readonly swollen: (visit: number, place: number) => number;
  /** First visit that is swollen at all; the number of visits where none is. */
  readonly onset: number;
  readonly someone: Person;
  /** True healthy girth of the left limb at a visit, mm above the true distal landmark. */
  readonly girthMm: (visit: number, placeMm: number) => number;
  readonly zerosMm: readonly number[];
};

/** Values of a wander that forgets, at days after the start. */
function forgetful(days: readonly number[], sd: number, random: Random): number[] {
  let value = 0;
  let before = days[0] as number;
  return days.map((day) => {
    const keep = Math.exp(-(day - before) / 365.25 / FORGETS_YEARS);
    value = value * keep + random.normal(sd * Math.sqrt(2) * Math.sqrt(1 - keep ** 2));
    before = day;
    return value;
  });
}

const IN: Readonly<Record<Swollen, (place: number) => number>> = {
  whole: () => 1,
  far: (place) => (place < 1 ? 1 : 0),
  near: (place) => (place >= 1 ? 1 : 0),
  joint: (place) => Math.exp(-(((place - 1) / 0.25) ** 2)),
};

/** One made-up person over many visits, with errors and a body that the engine does not assume. The left limb is the affected one. */
export function coursePerson(scenario: CourseScenario, pool: readonly LimbShape[], random: Random): CoursePerson {
  const base = person(scenario.who === 'child' ? 'child' : 'still', random.pick(pool), random);
  const { shape } = base;
  const gaps = Array.from({ length: scenario.visits - 1 }, () => 0.3 + random.uniform());
  const total = gaps.reduce((sum, gap) => sum + gap, 0);
  const days = [0, ...gaps].map((_, visit) => {
    const gone = gaps.slice(0, visit).reduce((sum, gap) => sum + gap, 0);
    return Math.round((gone / total) * scenario.days);
  });
  const onset = scenario.swelling === 0 ? scenario.visits : 1 + Math.floor(random.uniform() * (scenario.visits - 1));
  const exponents = { weight: 1 + random.normal(OWN_EXPONENT_SD), height: 1 + random.normal(OWN_EXPONENT_SD) };
  const walk = forgetful(days, ADULT_WEIGHT_SD, random);
  const trend = random.normal(0.04);
  const bodies = days.map((day, visit) => {
    const body = base.bodyOn(START + day);
    if (scenario.who === 'child') return body;
    return { heightMm: body.heightMm, weightKg: base.bodyOn(START).weightKg * Math.exp((walk[visit] as number) + (trend * day) / 365) };
  });
  const wander = {
    common: forgetful(days, WANDER_SD.common, random),
    left: forgetful(days, WANDER_SD.own, random),
    right: forgetful(days, WANDER_SD.own, random),
    bend: forgetful(days, WANDER_SD.bend, random),
  };
  const swollen = (visit: number, place: number): number => {
    if (visit < onset) return 0;
    const since = (days[visit] as number) - (days[onset - 1] as number);
    const come = scenario.comesOver > 0 ? Math.min(since / scenario.comesOver, 1) : 1;
    return scenario.swelling * come * IN[scenario.where](place);
  };
  const first = bodies[0] as { heightMm: number; weightKg: number };
  const healthy = (visit: number, side: Side, place: number): number => {
    const body = bodies[visit] as typeof first;
    const k = exponentsAt(shape.limb, scenario.who === 'child', place);
    const explained =
      k.weight * exponents.weight * Math.log(body.weightKg / first.weightKg) +
      k.height * exponents.height * Math.log(body.heightMm / first.heightMm);
    const own =
      (wander[side][visit] as number) + (wander.common[visit] as number) + (wander.bend[visit] as number) * Math.sin(Math.PI * place);
    return base.girthOn(side, place, START) * Math.exp(explained + own);
  };
  const habits = new Map<string, number>();
  const crew = random.uniform() < 0.6 ? ['A'] : ['A', 'B'];
  const setUp: SetUp = {
    unit: random.uniform() < 0.5 ? 'in' : 'cm',
    intervalMm: 0,
    direction: random.uniform() < 0.75 ? 'up' : 'down',
    landmarks: random.uniform() < 0.75 ? 'all' : 'zero only',
    sides: scenario.otherLimb ? ['left', 'right'] : ['left'],
  };
  const intervalMm = setUp.unit === 'in' ? 38.1 : scenario.limb === 'leg' ? 40 : 30;
  const zerosMm: number[] = [];
  const visits = days.map((day, visit): Visit => {
    const other = scenario.otherMeasurer && visit === scenario.visits - 1;
    const measurer = other ? 'C' : random.pick(crew);
    if (!habits.has(measurer)) habits.set(measurer, random.normal(other ? 0.01 : HABIT_SD));
    const tension = (habits.get(measurer) as number) + random.normal(0.004 * scenario.errors) + random.normal(0.002);
    const ladders = setUp.sides.map((side) =>
      tapeLadder(
        {
          shape,
          stretch: base.stretchOn(START + day),
          factor: (place) => healthy(visit, side, place) * (1 + (side === 'left' ? swollen(visit, place) : 0)),
        },
        side,
        {
          ...setUp,
          intervalMm,
          readingSdMm: 2.8 * scenario.errors,
          wildReadings: 0.05,
          placementSdMm: 5 * scenario.errors,
          tension,
          movedZeroMm: 0,
        },
        random,
      ),
    );
    zerosMm.push(ladders[0]?.zeroMm ?? 0);
    const body = bodies[visit] as typeof first;
    return {
      day: dayFromNumber(START + day),
      time: '10:00',
      posture: 'lying',
      measurer,
      height: typed(body.heightMm + random.normal(3), 'cm', false),
      weight: weighed(body.weightKg),
      note: null,
      ladders: ladders.map((one) => one.ladder),
    };
  });
  const { born, sex } = base;
  return {
    record: { reference: 'made up', born, sex, affected: [{ limb: shape.limb, side: 'left' }], visits, pieces: [] },
    swollen,
    onset,
    someone: base,
    girthMm: (visit, placeMm) => {
      const at = placeMm / base.stretchOn(START + (days[visit] as number));
      return shape.girthMm(at) * healthy(visit, 'left', anatomyOf(shape, at));
    },
    zerosMm,
  };
}
