import fc from 'fast-check';
import { demoClinic } from '@/app/_commands/demonstration/demo-clinic';
import type { ReviewedRecord } from '@/lib/record/next-visit';
import { calendarDay } from '@/lib/units/calendar-day';
import { type CourseScenario, coursePerson } from '../cohort/course-person';
import { type Random, seeded } from '../cohort/random';
import { syntheticLimbs } from '../cohort/synthetic-limbs';
import { demoRecord } from '../demo-record';
import { anyRecord } from '../properties/made-up-records';
import { withLife } from './made-up-life';

/** The day on which the made-up clinic stands. */
const DEMO_DAY = calendarDay('2027-03-10');

/** A made-up person under a name, made when asked for. */
export type MadeUp = { readonly name: string; readonly make: () => { readonly record: ReviewedRecord; readonly random: Random } };

const GROUPS = ['lymphoedema', 'burn scar', 'venous disease', 'other'];

/** People over months, with every kind of piece, phase, remark and slip of the tape that the record knows; each the same in every run. */
export const PEOPLE: readonly MadeUp[] = [
  ...Array.from({ length: 60 }, (_, index): MadeUp => ({ name: `course ${index}`, make: () => courseOf(index) })),
  ...Array.from({ length: 30 }, (_, index): MadeUp => ({ name: `odd ${index}`, make: () => oddOne(index) })),
  ...Array.from({ length: 20 }, (_, index): MadeUp => ({ name: `demonstration ${index}`, make: () => demoOne(index) })),
];

function courseOf(index: number) {
  const random = seeded(7000 + index);
  const limb = random.pick(['leg', 'leg', 'arm'] as const);
  const visits = 2 + Math.floor(random.uniform() * 6);
  const scenario: CourseScenario = {
    limb,
    visits,
    who: random.pick(['adult', 'child', 'child']),
    days: Math.round(visits * (10 + random.uniform() * 110)),
    otherLimb: random.uniform() < 0.7,
    errors: random.pick([0.5, 1, 1, 2]),
    swelling: random.pick([0, 0, 0.02, 0.05, -0.04, 0.1]),
    where: random.pick(['whole', 'far', 'near', 'joint']),
    comesOver: random.pick([0, 60, 200]),
    otherMeasurer: random.uniform() < 0.2,
  };
  const { record } = coursePerson(scenario, syntheticLimbs(limb), random);
  return { record: { ...withLife(record, random), diagnosisGroup: random.pick(GROUPS) }, random };
}

function oddOne(index: number) {
  const random = seeded(8000 + index);
  const [record] = fc.sample(anyRecord, { seed: 4200 + index, numRuns: 1 });
  if (!record) throw new RangeError('no odd record was drawn');
  return { record: { ...record, diagnosisGroup: random.pick(GROUPS) }, random };
}

function demoOne(index: number) {
  const { patients } = demoClinic(DEMO_DAY);
  const one = patients[index % patients.length];
  if (!one) throw new RangeError('the demonstration has nobody');
  const random = seeded(9000 + index);
  return { record: { ...withLife(demoRecord(one), random, one.pieces.length > 0), diagnosisGroup: random.pick(GROUPS) }, random };
}
