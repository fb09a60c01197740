import { answerTo, type MergedPrompt, type PromptAnswer } from '../prompts/decide-prompts';
import { type CalendarDay, calendarDay, showDay } from '../units/calendar-day';
import { withoutFullStop } from '../units/without-full-stop';
import { asksFor } from './dates-of-prompts';
import type { ScheduledDate } from './scheduled-date';

/** An answer to a prompt with the reason that was written. */
type Reasoned = PromptAnswer & { readonly reason: string | null };

/**
 * Why dates that have come are no line of Today, by key: their prompt was put off to a day that has not come, or declined.
 *
 * Shape: dates, the prompts raised and the answers given (oldest first), today; a date that is a line, or was moved by hand, is left out.
 * Example: `Put off to 10 Dec 2026: Not from a ladder in doubt.`
 */
export function restsByKey(
  dates: readonly ScheduledDate[],
  raised: readonly MergedPrompt[],
  answers: readonly Reasoned[],
  today: CalendarDay,
): Readonly<Record<string, string>> {
  const rests = dates.flatMap((date) => {
    const prompt = date.moved ? undefined : raised.find((one) => asksFor(one, date));
    const answer = prompt && answerTo(prompt, answers);
    const words = answer && restInWords(answer, today);
    return words ? [[date.key, words] as const] : [];
  });
  return Object.fromEntries(rests);
}

/**
 * The same of the order-by day of a piece, from the answers alone: the last one that was given to that day of that piece.
 *
 * An order's prompt has its piece and day as inputs (`prompts/rules/order-in-time`); an answer to another day holds no more.
 */
export function restOfOrder(answers: readonly Reasoned[], piece: string, day: CalendarDay, today: CalendarDay): string | undefined {
  const answer = answers.findLast(({ cause, inputs }) => cause.endsWith(': replacement') && inputs.includes(`: ${piece} ${day} `));
  return answer && restInWords(answer, today);
}

function restInWords({ answer, until, reason }: Reasoned, today: CalendarDay): string | undefined {
  const why = reason ? `: ${withoutFullStop(reason)}` : '';
  if (answer === 'not-for-this-patient') return `Answered “not for this patient”${why}.`;
  return answer === 'not-now' && until !== null && until > today ? `Put off to ${showDay(calendarDay(until))}${why}.` : undefined;
}
