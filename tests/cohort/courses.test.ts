import { describe, expect, it } from 'vitest';
import { type CourseGroup, courseTable } from './course-table';
import { heldOutLimbs } from './limb-shape';

const ASKED = ['healthy', '5 %', 'half of a leg, 5 %'];
/** Some of the people of some groups, for a test that must be short. */
const few = (group: CourseGroup): CourseGroup | undefined =>
  ASKED.includes(group.name) ? { ...group, scenarios: group.scenarios.filter(({ visits }) => [3, 6, 8].includes(visits)) } : undefined;

/**
 * People over many visits whose exponents, drift, measurers and reading errors the engine does not assume (`course-person.ts`); the bounds leave room
 * for so few. `npm run campaign -- course` runs many, and prints the same table.
 */
describe('verdicts over many visits', () => {
  it('keep false alarms few and find swelling of a whole limb and of half of one', () => {
    const tallies = courseTable('People that the engine does not assume', 1, heldOutLimbs, 2, 31, few);
    expect(tallies.get('healthy')?.all).toBeLessThanOrEqual(0.05);
    expect(tallies.get('5 %')?.all).toBeGreaterThanOrEqual(0.9);
    expect(tallies.get('half of a leg, 5 %')?.all).toBeGreaterThanOrEqual(0.85);
    expect(tallies.get('5 %')?.held).toBeGreaterThanOrEqual(0.88);
  });
});
