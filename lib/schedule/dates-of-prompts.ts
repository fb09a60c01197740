import type { Policy } from '../limits/policy';
import type { MergedPrompt } from '../prompts/decide-prompts';
import type { Prompt, PromptAction } from '../prompts/prompt';
import { addDays, type CalendarDay, showDay, showWeekday } from '../units/calendar-day';
import { withoutFullStop } from '../units/without-full-stop';
import type { DateKind, ScheduledDate } from './scheduled-date';

const ASKED_BY: Partial<Record<DateKind, PromptAction>> = {
  visit: 'visit',
  order: 'order',
  remeasure: 'order',
  'first-fit': 'first-fit',
  ask: 'ask',
};

/** Whether a prompt, or one that stands behind it, asks for what a date of the schedule is for. */
export function asksFor(prompt: MergedPrompt, date: Pick<ScheduledDate, 'kind' | 'piece'>): boolean {
  const action = ASKED_BY[date.kind];
  return action !== undefined && [prompt, ...prompt.also].some((one) => one.action === action && (one.about.piece ?? null) === date.piece);
}

/**
 * Prompts as of the days that people moved: one whose date was moved rests until it would be asked about on the moved day, and then
 * says so. A moved order opens the clinic's days before, as an order does; a visit or a first fit when the moved day has passed.
 *
 * Shape: prompts, the schedule, today. A prompt that stands for several dates rests only by its own.
 */
export function byMovedDates(
  prompts: readonly MergedPrompt[],
  dates: readonly ScheduledDate[],
  policy: Policy,
  today: CalendarDay,
): MergedPrompt[] {
  return prompts.flatMap((prompt) => {
    const date = dates.find((one) => one.moved && one.kind === prompt.action && one.piece === (prompt.about.piece ?? null));
    if (!date?.moved) return [prompt];
    if (today < opensOn(date, policy)) return [];
    return [{ ...moved(prompt, date), also: prompt.also }];
  });
}

function opensOn(date: ScheduledDate, policy: Policy): CalendarDay {
  if (date.kind === 'order') return addDays(date.day, -policy.endOfLifeLookDays);
  return date.kind === 'visit' ? addDays(date.day, 1) : date.day;
}

function moved(prompt: Prompt, { day, computed, moved: move }: ScheduledDate): Prompt {
  return {
    ...prompt,
    due: day,
    title: prompt.title.replace(showWeekday(computed), showWeekday(day)),
    facts: [`Moved by hand from ${showDay(computed)} to ${showDay(day)}: ${withoutFullStop(move?.reason ?? '')}.`, ...prompt.facts],
  };
}
