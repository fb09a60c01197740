import { courseTable } from './course-table';
import { heldOutLimbs, tunedLimbs } from './limb-shape';

/**
 * People over many visits whose exponents, drift, measurers and errors the engine does not assume, at 0.7, 1 and 1.5 times the ordinary errors; then
 * on the limbs that the defaults were looked at with. Prints the tables beside the aims; nothing here passes or fails.
 */
export function courseCampaign(people: number): void {
  for (const errors of [0.7, 1, 1.5]) courseTable('Limbs that were never tuned on', errors, heldOutLimbs, people, 9011);
  courseTable('Limbs the defaults were looked at with', 1, tunedLimbs, people, 9012);
}
