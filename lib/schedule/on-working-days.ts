import { type Diary, movedForClosed, workingDayBefore, workingDayFrom } from '../diary/diary';
import type { MergedPrompt } from '../prompts/decide-prompts';
import type { PromptAction } from '../prompts/prompt';
import { type CalendarDay, showWeekday } from '../units/calendar-day';
import { type DateKind, OF_REPLIES, type ScheduledDate } from './scheduled-date';

/** Dates on which somebody of the clinic does something: they lie on a working day. A delivery comes and a piece wears out on any. */
const WORKED: readonly DateKind[] = ['visit', 'remeasure', 'order', 'first-fit', 'call', 'ask', 'referral'];

/**
 * Dates with those of a closed day on the working day before, said in their reason; what a family sent on a closed day is for the first working
 * day from then. A day that a person chose stays, and so does a booked one.
 *
 * Shape: dates, the clinic's diary, today; dates by day, then by key. Example: a visit of Saturday 5 December is one of Friday 4 December.
 */
export function datesOnWorkingDays(dates: readonly ScheduledDate[], diary: Diary, today: CalendarDay): ScheduledDate[] {
  return dates
    .map((date) => {
      if (OF_REPLIES.includes(date.kind) && !date.moved) return { ...date, day: workingDayFrom(diary, date.day) };
      const day = date.moved || !WORKED.includes(date.kind) ? date.day : workingDayBefore(diary, date.day, today);
      return day === date.day ? date : { ...date, day, why: `${date.why}; ${movedForClosed(date.day)}` };
    })
    .sort((one, other) => one.day.localeCompare(other.day) || one.key.localeCompare(other.key));
}

/** Prompts that ask for something by a day; others are about the day something was measured. */
const BY_A_DAY: readonly PromptAction[] = ['visit', 'order', 'ask'];

/** Prompts with a due day on which the clinic is closed, asked for by the working day before: due day, title and reasons say so. */
export function promptsOnWorkingDays(prompts: readonly MergedPrompt[], diary: Diary, today: CalendarDay): MergedPrompt[] {
  return prompts.map((prompt) => {
    const { due } = prompt;
    const day = due && BY_A_DAY.includes(prompt.action) && workingDayBefore(diary, due, today);
    if (!due || !day || day === due) return prompt;
    const title = prompt.title.replace(showWeekday(due), showWeekday(day));
    return { ...prompt, due: day, title, facts: [...prompt.facts, `${showWeekday(day)} is ${movedForClosed(due)}.`] };
  });
}
