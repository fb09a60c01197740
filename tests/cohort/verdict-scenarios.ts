import type { LimbKind } from '@/lib/ladder/limb';
import type { Course } from './person';
import { usualSetUp } from './taped-person';
import type { PairScenario } from './verdict-cohort';

const COURSES: readonly (readonly [Course, string])[] = [
  ['still', 'adult'],
  ['weight', 'adult, weight ±5–12 %'],
  ['child', 'child'],
];
const ONE = ['left'] as const;
const BOTH = ['left', 'right'] as const;

/** Nothing but growth, weight and error: whatever is called more or less than expected is a false alarm. */
export function healthyScenarios(limb: LimbKind): PairScenario[] {
  return [
    ...COURSES.map(([course, who]) => same(limb, course, who, 0)),
    witnessed(limb, 'still', 'adult', 0),
    witnessed(limb, 'child', 'child', 0),
  ];
}

/** The left limb swollen all along by a share of girth; same measurer, landmarks taped. */
export function swollenScenarios(limb: LimbKind, swelling: number): PairScenario[] {
  return [
    ...COURSES.map(([course, who]) => same(limb, course, who, swelling)),
    witnessed(limb, 'still', 'adult', swelling),
    witnessed(limb, 'child', 'child', swelling),
  ];
}

/** What makes a verdict harder: zero alone, another hand, another posture, a moved zero. */
export function hardScenarios(limb: LimbKind, swelling: number): PairScenario[] {
  const setUp = usualSetUp(limb, 'in', 'all', ONE);
  const evenly = () => swelling;
  const named = (name: string) => `${limb}, ${name}${swelling > 0 ? `, +${100 * swelling} %` : ''}`;
  const posture = limb === 'leg' ? 1.025 : 1.01;
  return [
    { name: named('zero only'), limb, course: 'still', setUp: usualSetUp(limb, 'in', 'zero only', ONE), swelling: evenly },
    { name: named('other measurer'), limb, course: 'still', setUp, swelling: evenly, otherMeasurer: true },
    {
      name: named('other posture'),
      limb,
      course: 'still',
      setUp,
      swelling: evenly,
      second: { posture: 'standing', postureGirth: posture },
    },
    { name: named('zero moved 3 cm'), limb, course: 'still', setUp, swelling: evenly, second: { movedZeroMm: 30 } },
  ];
}

/** Swelling of one half of the left limb: below the knee or elbow, or above it; and in a child, whose halves do not grow alike. */
export function halfScenarios(limb: LimbKind, swelling: number): PairScenario[] {
  const setUp = usualSetUp(limb, 'in', 'all', ONE);
  const half = (which: string, course: Course, isSwollen: (place: number) => boolean): PairScenario => ({
    name: `${limb}, ${which} half, +${100 * swelling} %`,
    limb,
    course,
    setUp,
    swelling: (place) => (isSwollen(place) ? swelling : 0),
  });
  return [
    half('lower', 'still', (place) => place < 1),
    half('upper', 'still', (place) => place >= 1),
    half('a child’s lower', 'child', (place) => place < 1),
  ];
}

function same(limb: LimbKind, course: Course, who: string, swelling: number): PairScenario {
  const name = `${limb}, ${who}${swelling > 0 ? `, +${100 * swelling} %` : ''}`;
  return { name, limb, course, setUp: usualSetUp(limb, 'in', 'all', ONE), swelling: () => swelling };
}

function witnessed(limb: LimbKind, course: Course, who: string, swelling: number): PairScenario {
  const name = `${limb}, ${who}, other limb taped${swelling > 0 ? `, +${100 * swelling} %` : ''}`;
  return { name, limb, course, setUp: usualSetUp(limb, 'in', 'all', BOTH), swelling: () => swelling };
}
