import { type ErrorScale, errorScaleRange, learnErrorScale, type Strain } from '../course-model/error-scale';
import type { Policy } from '../limits/policy';
import { isSameMeasurer } from '../record/measurer';
import type { PatientRecord, Visit } from '../record/patient-record';
import { limbCourse } from '../trend/limb-course';
import { rememberedLooks } from '../trend/limb-looks';
import { limbSeries } from '../trend/limb-series';
import { rememberedChanges } from '../trend/remembered-changes';

/** A limb says something of the error from so many visits on. */
const FEWEST_VISITS = 3;
/** What limbs give whose errors are as assumed: model terms left out. Simulated once (`npm run campaign -- course`). */
const USUAL = 0.95;
/** The most probable history hangs on the scale: so many rounds, each from the scale before. */
export const SCALE_ROUNDS = 2;

/**
 * The scale of error of a whole record: one factor on the variance, learnt from every limb with three visits or more.
 *
 * Each limb by itself, without its witness; the records are gone through once a round, and none is kept. Shape: records and a policy; its own `errorScale` is not read. Source: `learnErrorScale`.
 */
export function recordErrorScale(records: Iterable<PatientRecord>, policy: Policy): ErrorScale {
  let scale: ErrorScale = { variance: 1, n: 0 };
  for (let round = 0; round < SCALE_ROUNDS; round++) {
    const strains: Strain[] = [];
    for (const record of records) strains.push(...limbStrains(record, policy, scale.variance));
    scale = scaleFromStrains(strains);
  }
  return scale;
}

/** The scale from what limbs say, in any order. */
export function scaleFromStrains(strains: readonly Strain[]): ErrorScale {
  return learnErrorScale(strains, USUAL);
}

/** What a limb says of its errors, and who taped it at every visit; null where several did, or it is not known. */
export type LimbStrain = Strain & { readonly visit: Visit; readonly measurer: string | null };

/** What each limb of a record with three visits or more says of its errors, the scale taken as `variance`. */
export function limbStrains(record: PatientRecord, policy: Policy, variance: number): readonly LimbStrain[] {
  const assumed = { ...policy, errorScale: variance };
  return limbSeries(record, assumed).flatMap((series) => {
    if (series.visits.length < FEWEST_VISITS) return [];
    const looks = rememberedLooks(assumed, rememberedChanges(assumed));
    const at = limbCourse(series, undefined, assumed, looks).at(series.visits.length - 1, 'clean', false);
    if (!at) return [];
    const [first, ...others] = series.visits.map(({ visit }) => visit) as [Visit, ...Visit[]];
    const isOnes = first.measurer !== null && others.every((other) => isSameMeasurer(first, other));
    return [{ strain: at.leastStrain * variance, degrees: at.leastDegrees, visit: first, measurer: isOnes ? first.measurer : null }];
  });
}

/** A learnt scale with its range, for a person to keep or not; and of each measurer who taped enough limbs alone. */
export type LearntScale = ErrorScale & {
  readonly range: readonly [low: number, high: number] | null;
  readonly measurers: readonly (ErrorScale & { readonly measurer: string; readonly range: readonly [low: number, high: number] | null })[];
};

/** Fewer limbs of one measurer than this say nothing of that person. Clinic default: as many as count in full for the clinic. */
const FEWEST_OF_ONE = 30;

/** The scale with its range from what the limbs say, all together and of each measurer with thirty limbs or more. */
export function scaleWithRange(limbs: readonly LimbStrain[]): LearntScale {
  const of = (some: readonly LimbStrain[]) => ({ ...learnErrorScale(some, USUAL), range: errorScaleRange(some, USUAL) ?? null });
  const groups: { readonly measurer: string; readonly visit: Visit; readonly limbs: LimbStrain[] }[] = [];
  for (const limb of limbs) {
    if (limb.measurer === null) continue;
    const known = groups.find(({ visit }) => isSameMeasurer(visit, limb.visit));
    if (known) known.limbs.push(limb);
    else groups.push({ measurer: limb.measurer, visit: limb.visit, limbs: [limb] });
  }
  const measurers = groups
    .filter((group) => group.limbs.length >= FEWEST_OF_ONE)
    .map((group) => ({ measurer: group.measurer, ...of(group.limbs) }));
  return { ...of(limbs), measurers };
}
