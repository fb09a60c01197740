import type { Policy } from '../limits/policy';
import type { PatientRecord } from '../record/patient-record';
import { limbCourse } from '../trend/limb-course';
import { rememberedLooks } from '../trend/limb-looks';
import { limbSeries } from '../trend/limb-series';
import { rememberedChanges } from '../trend/remembered-changes';
import type { LimbSeries, SeriesVisit } from '../trend/series-visit';

/**
 * The limb as it was known at a visit, where a landmark or a weight of the visits up to it was taken from a later one; undefined where none was.
 *
 * Only what was known on the day counts for the verdict of that day.
 */
export function knownThen(index: number, series: LimbSeries, witness: LimbSeries | undefined, record: PatientRecord, policy: Policy) {
  const { visit } = series.visits[index] as SeriesVisit;
  const hangsOnLater = (all: readonly SeriesVisit[]): boolean =>
    all.some(
      (one) =>
        !(one.visit.day > visit.day) &&
        ([...one.placed.landmarks.values()].some(({ inferred }) => inferred) ||
          (one.body.weightKg?.day ?? visit.day) > visit.day ||
          (one.growing && (one.body.heightMm?.day ?? visit.day) > visit.day)),
    );
  if (index === series.visits.length - 1 || !(hangsOnLater(series.visits) || (witness && hangsOnLater(witness.visits)))) return undefined;
  const taped = series.visits.slice(0, index + 1);
  const then = limbSeries(
    { ...record, visits: record.visits.filter((one) => one.day < visit.day || taped.some((at) => at.visit === one)) },
    policy,
  );
  const of = (which: LimbSeries | undefined) => which && then.find(({ limb, side }) => limb === which.limb && side === which.side);
  const [own, other] = [of(series), of(witness)];
  if (own?.visits.length !== taped.length) return undefined;
  return { course: limbCourse(own, other, policy, rememberedLooks(policy, rememberedChanges(policy))), witness: other };
}
