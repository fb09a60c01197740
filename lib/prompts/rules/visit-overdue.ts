import { nextVisit, reviewInterval } from '../../record/next-visit';
import { daysBetween, showDay } from '../../units/calendar-day';
import type { Rule } from '../prompt';

/** Visit overdue: the clinic's review interval has passed since the last visit. */
export const visitOverdue: Rule = {
  id: 'visit-overdue',
  version: 1,
  apply: ({ record, policy, today }) => {
    const due = nextVisit(record, policy);
    const last = record.visits.at(-1)?.day;
    if (!due || !last || due >= today) return [];
    return [
      {
        action: 'visit',
        due,
        title: 'Consider booking the next visit.',
        facts: [
          `Last visit ${showDay(last)}; the clinic's interval is ${reviewInterval(record, last, policy)} days; ${daysBetween(due, today)} days over.`,
        ],
        missing: [],
        limits: [],
        cause: 'visit',
        about: {},
        inputs: `${last}`,
      },
    ];
  },
};
