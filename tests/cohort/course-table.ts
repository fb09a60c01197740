import { recordErrorScale } from '@/lib/analysis/record-error-scale';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { type Said, saidOf } from './course-cohort';
import { type CourseScenario, coursePerson } from './course-person';
import type { LimbShape } from './dense-limb';
import { percent, printTable } from './print-table';
import { seeded } from './random';

/** A group of people and what is asked of them: `healthy` counts whatever alarm, a swelling the alarms its way from its first visit on. */
export type CourseGroup = { readonly name: string; readonly scenarios: readonly CourseScenario[]; readonly aim: string };

const VISITS = [
  [2, 30],
  [3, 120],
  [4, 240],
  [6, 400],
  [8, 600],
  [12, 900],
  [20, 1095],
] as const;

/** Legs and arms, adults and children, with and without the other limb taped, 2 to 20 visits over 30 days to three years. */
export function peopleOf(over: Partial<CourseScenario>): CourseScenario[] {
  return (['leg', 'arm'] as const).flatMap((limb) =>
    (['adult', 'child'] as const).flatMap((who) =>
      VISITS.flatMap(([visits, days]) =>
        [false, true].map((otherLimb) => ({
          limb,
          who,
          visits,
          days,
          otherLimb,
          errors: 1,
          swelling: 0,
          where: 'whole' as const,
          comesOver: 0,
          otherMeasurer: false,
          ...over,
        })),
      ),
    ),
  );
}

const legs = (over: Partial<CourseScenario>) => peopleOf(over).filter(({ limb }) => limb === 'leg');
const arms = (over: Partial<CourseScenario>) => peopleOf(over).filter(({ limb }) => limb === 'arm');
const fromFour = (over: Partial<CourseScenario>) => peopleOf(over).filter(({ visits }) => visits >= 4);

/** Every group that an aim is set for, at so many times the ordinary errors. */
function courseGroups(errors: number): readonly CourseGroup[] {
  const usual = errors <= 1;
  return [
    { name: 'healthy', scenarios: peopleOf({ errors }), aim: usual ? '≤ 2' : '≤ 3' },
    { name: '3 %', scenarios: peopleOf({ errors, swelling: 0.03 }), aim: usual ? '≥ 70' : '' },
    { name: '5 %', scenarios: peopleOf({ errors, swelling: 0.05 }), aim: usual ? '≥ 96' : '≥ 88' },
    { name: '5 % smaller', scenarios: peopleOf({ errors, swelling: -0.05 }), aim: usual ? '≥ 96' : '≥ 88' },
    { name: '8 %', scenarios: peopleOf({ errors, swelling: 0.08 }), aim: usual ? '≥ 96' : '≥ 88' },
    {
      name: 'half of a leg, 5 %',
      scenarios: (['far', 'near'] as const).flatMap((where) => legs({ errors, swelling: 0.05, where })),
      aim: '≥ 90',
    },
    {
      name: 'half of an arm, 5 %',
      scenarios: (['far', 'near'] as const).flatMap((where) => arms({ errors, swelling: 0.05, where })),
      aim: '≥ 75',
    },
    { name: 'joint, 8 %', scenarios: peopleOf({ errors, swelling: 0.08, where: 'joint' }), aim: '' },
    { name: '6 % that comes over 200 days', scenarios: peopleOf({ errors, swelling: 0.06, comesOver: 200 }), aim: '' },
    { name: 'another measurer, healthy', scenarios: fromFour({ errors, otherMeasurer: true }), aim: usual ? '≤ 2' : '≤ 3' },
    { name: 'another measurer, 5 %', scenarios: fromFour({ errors, otherMeasurer: true, swelling: 0.05 }), aim: '≥ 85' },
  ];
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / Math.max(values.length, 1);
const shareOf = (said: readonly Said[], counts: (one: Said) => boolean): number => mean(said.map((one) => (counts(one) ? 1 : 0)));

/** What a group gave: of the newest visits, of all visits that count, and how often the 95 % range held the truth. */
export type CourseTally = { readonly newest: number; readonly all: number; readonly cannotTell: number; readonly held: number };

/**
 * Runs all groups on the same people with the scale of error learnt from healthy ones and those swollen by 5 %, as a clinic's file would give it,
 * and prints a line a group.
 */
export function courseTable(
  title: string,
  errors: number,
  poolOf: (limb: 'leg' | 'arm') => readonly LimbShape[],
  people: number,
  seed: number,
  only: (group: CourseGroup) => CourseGroup | undefined = (group) => group,
): ReadonlyMap<string, CourseTally> {
  const groups = courseGroups(errors).flatMap((each) => {
    const group = only(each);
    const random = seeded(seed);
    const taped = group?.scenarios.flatMap((one) => Array.from({ length: people }, () => coursePerson(one, poolOf(one.limb), random)));
    return group && taped ? [{ ...group, people: taped }] : [];
  });
  const clinic = groups
    .filter(({ name }) => name === 'healthy' || name === '5 %')
    .flatMap((group) => group.people.map(({ record }) => record));
  const scale = recordErrorScale(clinic, DEFAULT_POLICY);
  const policy = { ...DEFAULT_POLICY, errorScale: scale.variance };
  const tallies = new Map<string, CourseTally>();
  const ranges: Said[] = [];
  for (const group of groups) {
    const healthy = group.scenarios[0]?.swelling === 0;
    const way = (group.scenarios[0]?.swelling ?? 0) < 0 ? 'less' : 'more';
    const said = group.people.flatMap((one) => saidOf(one, policy)).filter((one) => one.swollen !== healthy);
    const counted = group.name.startsWith('another') ? said.filter(({ last }) => last) : said;
    const asAsked = (one: Said): boolean => (healthy ? one.alarm : one.way === way);
    const withRange = said.filter(({ z }) => z !== undefined);
    ranges.push(...withRange);
    tallies.set(group.name, {
      newest: shareOf(
        said.filter(({ last }) => last),
        asAsked,
      ),
      all: shareOf(counted, asAsked),
      cannotTell: shareOf(counted, ({ cannotTell }) => cannotTell),
      held: shareOf(withRange, ({ z }) => Math.abs(z ?? 0) <= 1.96),
    });
  }
  printTable(
    `${title}: errors ${errors} times the ordinary ones, scale learnt ${scale.variance.toFixed(2)} (${scale.n} limbs), ${people} people a line of visits, seed ${seed}`,
    ['per cent', 'newest visit', 'all visits', 'aim', 'cannot tell', '95 % holds'],
    groups.map(({ name, aim }) => {
      const tally = tallies.get(name) as CourseTally;
      return [name, percent(tally.newest), percent(tally.all), aim, percent(tally.cannotTell), percent(tally.held)];
    }),
  );
  process.stdout.write(`95 % ranges hold ${percent(shareOf(ranges, ({ z }) => Math.abs(z ?? 0) <= 1.96))} % of ${ranges.length}\n`);
  return tallies;
}
