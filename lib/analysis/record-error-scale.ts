import { type ErrorScale, learnErrorScale, type Strain } from '../course-model/error-scale';
import type { Policy } from '../limits/policy';
import type { PatientRecord } from '../record/patient-record';
import { limbCourse } from '../trend/limb-course';
import { rememberedLooks } from '../trend/limb-looks';
import { limbSeries } from '../trend/limb-series';
import { rememberedChanges } from '../trend/remembered-changes';

/** A limb says something of the error from so many visits on. */
const FEWEST_VISITS = 3;
/** What limbs give whose errors are as assumed: model terms left out. Simulated once (`npm run campaign -- course`). */
const USUAL = 0.95;
/** The most probable history hangs on the scale: so many rounds, each from the scale before. */
const ROUNDS = 2;

/**
 * The scale of error of a whole record: one factor on the variance, learnt from every limb with three visits or more.
 *
 * Each limb by itself, without its witness; the records are gone through once a round, and none is kept. Shape: records and a policy; its own `errorScale` is not read. Source: `learnErrorScale`.
 */
export function recordErrorScale(records: Iterable<PatientRecord>, policy: Policy): ErrorScale {
  let scale: ErrorScale = { variance: 1, n: 0 };
  for (let round = 0; round < ROUNDS; round++) {
    const assumed = { ...policy, errorScale: scale.variance };
    const strains: Strain[] = [];
    for (const record of records) strains.push(...strainsOf(record, assumed, scale.variance));
    scale = learnErrorScale(strains, USUAL);
  }
  return scale;
}

function strainsOf(record: PatientRecord, assumed: Policy, variance: number): readonly Strain[] {
  return limbSeries(record, assumed).flatMap((series) => {
    if (series.visits.length < FEWEST_VISITS) return [];
    const looks = rememberedLooks(assumed, rememberedChanges(assumed));
    const at = limbCourse(series, undefined, assumed, looks).at(series.visits.length - 1, 'clean', false);
    return at ? [{ strain: at.leastStrain * variance, degrees: at.leastDegrees }] : [];
  });
}
