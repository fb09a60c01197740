import { type ErrorScale, learnErrorScale } from '../course-model/error-scale';
import type { PatientRecord } from '../record/patient-record';
import type { Policy } from '../record/policy';
import { limbCourse } from '../trend/limb-course';
import { limbSeries } from '../trend/limb-series';
import { rememberedChanges } from '../trend/remembered-changes';

/** A limb says something of the error from so many visits on. */
const FEWEST_VISITS = 3;
/** What limbs give whose errors are as assumed: model terms left out. Simulated once (`npm run campaign -- course`). */
const USUAL = 0.95;

/**
 * The scale of error of a whole record: one factor on the variance, learnt from every limb with three visits or more.
 *
 * Each limb by itself, without its witness. Shape: records and a policy; its own `errorScale` is not read. Source: `learnErrorScale`.
 */
export function recordErrorScale(records: readonly PatientRecord[], policy: Policy): ErrorScale {
  const assumed = { ...policy, errorScale: 1 };
  const limbs = records.flatMap((record) =>
    limbSeries(record, assumed).flatMap((series) => {
      const last = series.visits.length - 1;
      if (last + 1 < FEWEST_VISITS) return [];
      const course = limbCourse(series, undefined, assumed, rememberedChanges(assumed)).at(last, 'clean', false);
      return course ? [{ strain: course.strain, degrees: course.degrees }] : [];
    }),
  );
  return learnErrorScale(limbs, USUAL);
}
