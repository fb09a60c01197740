import { lengthFactor } from '../alignment/place-landmarks';
import { burnDriftZ } from '../growth/after-burn';
import { bodyModelSd } from '../growth/expected-girth';
import { exponentsAt } from '../growth/girth-exponents';
import { projectMeasure } from '../growth/project-measure';
import type { Policy } from '../limits/policy';
import { isNoAnswer, type NoAnswer } from '../outcome';
import type { PatientRecord } from '../record/patient-record';
import type { SeriesVisit } from '../trend/series-visit';
import { addDays, type CalendarDay, daysBetween } from '../units/calendar-day';
import type { OwnTrend } from './own-trend';

/** Body size expected on a later day against the day of the newest ladder: ratios and SDs of their logarithms. */
export type BodyOutlook = {
  readonly day: CalendarDay;
  readonly days: number;
  readonly weightRatio: number;
  readonly weightSd: number;
  readonly heightRatio: number;
  readonly heightSd: number;
};

const DAYS_A_YEAR = 365.25;
const NO_CHANGE = { weightRatio: 1, weightSd: 0, heightRatio: 1, heightSd: 0 };

/**
 * Weight and height a number of days after the newest ladder, by constant z on the clinic's growth tables, wider after a large burn. An
 * adult's weight stays where it is, and wanders: SD s √(t / year), s the clinic's `adultWeightSdPct`.
 *
 * Refuses by name: a child without height and weight near the ladder, without a table (sex X, age), or more than 12 months ahead.
 * Shape: a record, the newest ladder's visit, days ahead, the policy. Source: `projectMeasure`; engine section 8.
 */
export function bodyOutlook(record: PatientRecord, latest: SeriesVisit, days: number, policy: Policy): BodyOutlook | NoAnswer {
  const day = addDays(latest.visit.day, days);
  if (!latest.growing)
    return { day, days, ...NO_CHANGE, weightSd: (policy.adultWeightSdPct / 100) * Math.sqrt(Math.max(days, 0) / DAYS_A_YEAR) };
  const { heightMm, weightKg } = latest.body;
  const [odd] = latest.bodyInDoubt;
  if (odd) return { noAnswer: `The ${odd} on record looks odd: keep it or correct it, then there is an outlook.` };
  if (!heightMm || !weightKg) return { noAnswer: 'A child needs height and weight near the last measuring to look ahead.' };
  const height = ratioAhead(record, 'height', heightMm.day, heightMm.value / 10, latest.visit.day, day, policy);
  const weight = ratioAhead(record, 'weight', weightKg.day, weightKg.value, latest.visit.day, day, policy);
  if (isNoAnswer(height)) return height;
  if (isNoAnswer(weight)) return weight;
  return { day, days, weightRatio: weight.ratio, weightSd: weight.sd, heightRatio: height.ratio, heightSd: height.sd };
}

function ratioAhead(
  record: PatientRecord,
  measure: 'height' | 'weight',
  measuredOn: CalendarDay,
  value: number,
  from: CalendarDay,
  to: CalendarDay,
  policy: Policy,
): { ratio: number; sd: number } | NoAnswer {
  const reference = policy.growthReference;
  const start = measuredOn > from ? measuredOn : from;
  const base = start === measuredOn ? undefined : projectMeasure(reference, measure, record.sex, record.born, measuredOn, value, start);
  if (base && isNoAnswer(base)) return base;
  const end = to > measuredOn ? to : measuredOn;
  const further = burnDriftZ(record.facts, measuredOn, end, policy);
  const ahead = projectMeasure(reference, measure, record.sex, record.born, measuredOn, value, end, undefined, further);
  if (isNoAnswer(ahead)) return ahead;
  return { ratio: ahead.middle / (base?.middle ?? value), sd: daysBetween(start, end) === 0 ? 0 : ahead.sd / ahead.middle };
}

/**
 * Girth at an anatomical place on a later day against the newest ladder: middle ratio and SD of its logarithm.
 * Example: on the day of the ladder itself the ratio is 1.
 */
export function girthAhead(
  latest: SeriesVisit,
  outlook: BodyOutlook,
  place: number,
  trend: OwnTrend | undefined,
): { ratio: number; sd: number } {
  const exponents = exponentsAt(latest.ladder.limb, latest.growing, place);
  const own = (trend?.perDay ?? 0) * outlook.days;
  const ratio = outlook.weightRatio ** exponents.weight * outlook.heightRatio ** exponents.height * Math.exp(own);
  const model = outlook.days === 0 ? 0 : bodyModelSd(outlook.days);
  const variance =
    model ** 2 +
    (exponents.weight * outlook.weightSd) ** 2 +
    (exponents.height * outlook.heightSd) ** 2 +
    ((trend?.sdPerDay ?? 0) * outlook.days) ** 2;
  return { ratio, sd: Math.sqrt(variance) };
}

/** Limb length on a later day against the newest ladder: middle ratio and SD. Adults: 1. Example: a grown person → 1, SD 0. */
export function lengthAhead(latest: SeriesVisit, outlook: BodyOutlook): { ratio: number; sd: number } {
  const ratio = lengthFactor(1, outlook.heightRatio, latest.ladder.limb, latest.growing);
  return { ratio, sd: latest.growing && outlook.days > 0 ? Math.hypot(bodyModelSd(outlook.days), outlook.heightSd) : 0 };
}
