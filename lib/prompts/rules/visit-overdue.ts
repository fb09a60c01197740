import { nextReview } from '../../record/next-visit';
import { daysBetween, showDay } from '../../units/calendar-day';
import type { Rule } from '../prompt';

/** Visit overdue: the clinic's review interval has passed since the last visit, or since a new piece was first worn. */
export const visitOverdue: Rule = {
  id: 'visit-overdue',
  version: 3,
  apply: ({ record, policy, today }) => {
    const review = nextReview(record, policy, today);
    const last = record.visits.at(-1)?.day;
    if (!review || !last || review.day >= today) return [];
    const since = review.after === 'visit' ? '' : ` after first wear of a new piece on ${showDay(review.since)}`;
    return [
      {
        action: 'visit',
        due: review.day,
        title: 'Consider booking the next visit.',
        facts: [
          `Last visit ${showDay(last)}; the clinic’s interval is ${review.days} days${since}; ${daysBetween(review.day, today)} days over.`,
        ],
        missing: [],
        limits: [review.limit],
        cause: 'visit',
        about: {},
        inputs: review.after === 'visit' ? `${last}` : `${last} worn ${review.since}`,
      },
    ];
  },
};
