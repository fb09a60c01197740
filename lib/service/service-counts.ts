import type { CalendarDay } from '../units/calendar-day';
import type { CareCounts } from './care-figures';
import type { RightCounts } from './were-we-right';

/** A calendar month as YYYY-MM. */
export type Month = string & { readonly unit: 'month' };

/** The month a day lies in. */
export function monthOf(day: CalendarDay): Month {
  return day.slice(0, 7) as Month;
}

/** How many fittings of a month ended in the same way: `isFirst` of those that were the first of their piece; null where no form was named. */
export type FittingCount = {
  readonly month: Month;
  readonly form: string | null;
  readonly outcome: 'keep' | 'alter' | 'remake';
  readonly reason: string | null;
  readonly isFirst: boolean;
  readonly n: number;
};

/**
 * Pieces that were kept in a month, so many days after their order was sent; `wentBack` when an alteration or remake came before.
 *
 * `parted` of them have a day of delivery too: over those the sums of the days from measuring to sending, to delivery, to the fit.
 */
export type KeptCount = {
  readonly month: Month;
  readonly wentBack: boolean;
  readonly days: number;
  readonly n: number;
  readonly parted: number;
  readonly measuring: number;
  readonly making: number;
  readonly waiting: number;
};

/** Pieces first delivered in a month, so many days after their order was sent. */
export type DeliveredCount = { readonly month: Month; readonly form: string | null; readonly days: number; readonly n: number };

/** Booked visits of a month by what became of them: kept follows from a visit of the day; what was cancelled or never said is not counted. */
export type BookedCount = { readonly month: Month; readonly standing: 'kept' | 'missed'; readonly n: number };

/** Prompts of a rule by the last thing that was answered to them. */
export type AnswerCount = { readonly rule: string; readonly answer: 'act' | 'not-now' | 'not-for-this-patient'; readonly n: number };

/** What a clinic's record holds of its own service, counted where it is kept. All but `answers`, `right` and `care` is of the whole record. */
export type ServiceCounts = {
  readonly fittings: readonly FittingCount[];
  readonly kept: readonly KeptCount[];
  readonly delivered: readonly DeliveredCount[];
  readonly booked: readonly BookedCount[];
  /** Fittings that were no remake, between one remake and the next, oldest first. Before the first and after the last none is counted; none at all unless remakes are rare. */
  readonly betweenRemakes: readonly number[];
  /** Of the period asked for. */
  readonly answers: readonly AnswerCount[];
  /** Of the period asked for. */
  readonly right: RightCounts;
  /** Of the period asked for. */
  readonly care: CareCounts;
};
