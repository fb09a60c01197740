import { phaseOn } from '../course/phases';
import type { ComparedWith } from '../limits/limit-in-words';
import type { Policy } from '../limits/policy';
import { ageInYears } from '../units/age';
import { addDays, type CalendarDay } from '../units/calendar-day';
import type { PatientRecord } from './patient-record';

/** A record with the broad group of why the pieces are worn, where it is known; review intervals of grown patients hang on it. */
export type ReviewedRecord = PatientRecord & { readonly diagnosisGroup?: string };

/** When a patient should be seen again: the day, what it is counted from, and the limit it comes from. */
export type Review = {
  readonly day: CalendarDay;
  readonly since: CalendarDay;
  readonly after: 'visit' | 'new piece';
  readonly days: number;
  /** The limit that gave the days; `reviewDays` is the clinic's table by age. */
  readonly limit: ComparedWith;
};

/**
 * When the next visit falls due: the last visit plus the clinic's interval, or sooner after a new piece.
 *
 * While somebody is reduced, or gets ready or wears an interim garment, the interval is that of the phase. Else it is the clinic's table by
 * age; grown people with scars have their own, and grown people with lymphoedema are seen some
 * weeks after the first wear of a new piece. A visit in the second half of those weeks, or later, is that review.
 * Shape: a record, the policy, the day whose phase counts; undefined before the first visit. Source: clinic defaults about published intervals, named in `LIMITS`.
 * Example: taped 14 Oct 2026 at 10 years, every 84 days: 6 Jan 2027.
 */
export function nextReview(record: ReviewedRecord, policy: Policy, today: CalendarDay): Review | undefined {
  const last = record.visits.at(-1)?.day;
  if (last === undefined) return undefined;
  const usual = intervalOfPhase(record, policy, today) ?? intervalByAge(record, last, policy);
  const review: Review = { day: addDays(last, usual.days), since: last, after: 'visit', ...usual };
  const worn = isGrown(record, last, policy) && record.diagnosisGroup === 'lymphoedema' ? newestFirstWear(record) : undefined;
  if (!worn) return review;
  const days = policy.newPieceReviewDays;
  const seen = last >= addDays(worn, Math.ceil(days / 2));
  const sooner = addDays(worn, days);
  return seen || sooner >= review.day ? review : { day: sooner, since: worn, after: 'new piece', days, limit: 'newPieceReviewDays' };
}

function intervalOfPhase({ phases = [] }: ReviewedRecord, policy: Policy, today: CalendarDay): Pick<Review, 'days' | 'limit'> | undefined {
  switch (phaseOn(phases, today)?.kind) {
    case 'reduction':
      return { days: policy.reductionReviewDays, limit: 'reductionReviewDays' };
    case 'getting-ready':
    case 'interim-garment':
      return { days: policy.unsettledReviewDays, limit: 'unsettledReviewDays' };
    default:
      return undefined;
  }
}

function intervalByAge(record: ReviewedRecord, on: CalendarDay, policy: Policy): Pick<Review, 'days' | 'limit'> {
  if (isGrown(record, on, policy) && (record.diagnosisGroup ?? '').endsWith('scar'))
    return { days: policy.grownScarReviewDays, limit: 'grownScarReviewDays' };
  const age = ageInYears(record.born, on);
  const row = policy.reviewDays.find((one) => age < one.underYears) ?? policy.reviewDays.at(-1);
  return { days: row?.days ?? 182, limit: 'reviewDays' };
}

function isGrown(record: PatientRecord, on: CalendarDay, policy: Policy): boolean {
  return ageInYears(record.born, on) >= policy.grownFromYears;
}

function newestFirstWear(record: PatientRecord): CalendarDay | undefined {
  return record.pieces
    .flatMap(({ firstWorn, retired }) => (firstWorn && !retired ? [firstWorn] : []))
    .sort()
    .at(-1);
}
