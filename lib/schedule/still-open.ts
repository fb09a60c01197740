import type { PatientAnalysis } from '../analysis/analyse-patient';
import { isAtRest } from '../course/day-to-ask';
import { type MergedPrompt, type PromptAnswer, putOff } from '../prompts/decide-prompts';
import { outsideInWords } from '../prompts/outside-in-words';
import { type CalendarDay, calendarDay, showDay } from '../units/calendar-day';
import type { WorkItem } from './worklist';

/**
 * What a page has to name before it may say that nothing is asked: dates that passed, prompts put off to a day, pieces at hand outside their band. Where the
 * course is at rest no piece is named.
 *
 * Shape: a patient's work and the answers given; one sentence each, none when there is nothing.
 */
export function stillOpen(
  work: {
    readonly analysis: PatientAnalysis;
    readonly items: readonly WorkItem[];
    readonly raised: readonly MergedPrompt[];
    readonly open: readonly MergedPrompt[];
  },
  answers: readonly PromptAnswer[],
  today: CalendarDay,
): string[] {
  const overdue = work.items
    .filter(({ due, prompt }) => due < today && prompt === null)
    .map(({ title, due }) => `${title}: was due ${showDay(due)}.`);
  const later = putOff(work.raised, work.open, answers).map(
    ({ prompt, until }) => `Put off to ${showDay(calendarDay(until))}: ${prompt.title}`,
  );
  const { record } = work.analysis;
  return [...overdue, ...later, ...(isAtRest(record.phases ?? [], today) ? [] : outsideInWords(work.analysis))];
}
