import type { Leaving } from '../course/leaving';
import { showDay } from '../units/calendar-day';
import { withoutFullStop } from '../units/without-full-stop';

/**
 * All that was gone through before somebody left, in words: how many criteria were met on which day, which were not, who supplies, the note.
 *
 * Example: `2 of 3 met on 4 Nov 2026; not met: Size is steady; supplied by: The pharmacy; note: Wants to come back in spring`.
 */
export function leavingSentence({ criteria, day, supplies, note }: Leaving): string {
  const not = criteria.filter(({ met }) => !met).map(({ words }) => withoutFullStop(words));
  return [
    `${criteria.length - not.length} of ${criteria.length} met on ${showDay(day)}`,
    ...(not.length > 0 ? [`not met: ${not.join('; ')}`] : []),
    ...(supplies ? [`supplied by: ${withoutFullStop(supplies)}`] : []),
    ...(note ? [`note: ${withoutFullStop(note)}`] : []),
  ].join('; ');
}
