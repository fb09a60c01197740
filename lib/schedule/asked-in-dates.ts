import type { KeptReply } from '../observations/family-reply';
import { type CalendarDay, showDay, showWeekday } from '../units/calendar-day';
import type { ScheduledDate } from './scheduled-date';

type Dated = Pick<ScheduledDate, 'key' | 'kind' | 'day' | 'time'>;

/** Replies of a family that the dates of its patient still ask about: to be rung, to be looked at. None after a death, as the dates have none. */
export function repliesAsked<T extends KeptReply>(
  dates: readonly Dated[],
  replies: readonly T[],
): { readonly calls: readonly T[]; readonly looks: readonly T[] } {
  const of = (kind: 'call-back' | 'reply') => {
    const keys = new Set(dates.filter((date) => date.kind === kind).map(({ key }) => key));
    return replies.filter(({ replyId }) => keys.has(`${kind}:${replyId}`));
  };
  return { calls: of('call-back'), looks: of('reply') };
}

/** The ids of all of them. */
export function idsAsked(dates: readonly Dated[], replies: readonly KeptReply[]): ReadonlySet<string> {
  const { calls, looks } = repliesAsked(dates, replies);
  return new Set([...calls, ...looks].map(({ replyId }) => replyId));
}

/**
 * What a patient's page says where no prompt is open: that nothing is asked, or nothing else beside what the family asks for, and what comes next.
 *
 * Shape: the dates, whether the course rests, the day called today.
 * Example: on hold with an open call-back: `Nothing else is due but to ask again on Wednesday 3 June.`
 */
export function nothingAskedInWords(dates: readonly Dated[], atRest: boolean, today: CalendarDay): string {
  const find = (kind: Dated['kind']) => dates.find((date) => date.kind === kind);
  const nothing = find('call-back') || find('reply') ? 'Nothing else' : 'Nothing';
  const ask = find('ask');
  if (atRest) return `${nothing} is due${ask ? ` but to ask again on ${showWeekday(ask.day)}` : ''}.`;
  const [booked, due] = [find('booking'), find('visit')];
  const none = `${nothing} is asked today.`;
  if (booked) return `${none} The next visit is booked for ${showWeekday(booked.day)}${booked.time ? ` at ${booked.time}` : ''}.`;
  return due
    ? `${none} The next visit falls due ${due.day >= today ? showWeekday(due.day) : showDay(due.day)}.`
    : 'No visit yet. Measure the first ladder.';
}
