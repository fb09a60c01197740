import type { GivenVerdict } from '../analysis/given-answers';
import { inHundred, sureOfChange, sureOfNone } from '../prompts/change-in-words';
import { isAlarm } from '../trend/judged-change';
import type { LookingBack } from '../trend/looking-back';
import type { Verdict } from '../trend/verdict';
import { type CalendarDay, showDay } from '../units/calendar-day';
import { VERDICT_WORDS } from './verdict-words';

/**
 * What was said of a visit on the day it was worked out: `Said on 14 Oct 2026 against 12 May 2026: no clear change (probability of a change 12 in 100).`
 */
export function givenSentence({ verdict, probability, earlierDay }: GivenVerdict, givenOn: CalendarDay): string {
  const share = probability === null ? '' : ` (probability of a change ${(probability * 100).toFixed(0)} in 100)`;
  return `Said on ${showDay(givenOn)} against ${showDay(earlierDay)}: ${VERDICT_WORDS[verdict]}${share}.`;
}

/** What later visits say of a verdict: the change they say, if any, and whether that is what the verdict says. */
function comparedWith(verdict: Verdict, { probability, larger }: LookingBack, limit: number) {
  const said = probability >= limit ? (larger ? 'larger' : 'smaller') : undefined;
  const then = isAlarm(verdict) ? (verdict === 'more-than-expected' ? 'larger' : 'smaller') : undefined;
  return { said, agrees: verdict !== 'cannot-tell' && said === then };
}

/**
 * What later visits say of a verdict, in one sentence. `limit` is the probability from which a change is said.
 *
 * Example: no clear change then, 91 in 100 now: "Looking back from 12 May 2026: larger by this visit than expected, very likely, 91 in 100,
 * between 3 Mar 2026 and 1 Apr 2026."; where both say the same, "Later visits agree." stands behind.
 */
export function lookingBackSentence(verdict: Verdict, back: LookingBack, limit: number): string {
  const { said, agrees } = comparedWith(verdict, back, limit);
  const { probability, since, before, from } = back;
  const words = said
    ? `${said} by this visit than expected, ${sureOfChange(probability)}, between ${showDay(before)} and ${showDay(since)}`
    : sureOfNone(probability);
  return `Looking back from ${showDay(from)}: ${words}.${agrees ? ' Later visits agree.' : ''}`;
}

/** The same for a cell of a table, only where later visits say something else: `looking back larger, 91 in 100`. */
export function lookingBackNote(verdict: Verdict, back: LookingBack, limit: number): string | undefined {
  const { said, agrees } = comparedWith(verdict, back, limit);
  if (agrees) return undefined;
  return `looking back ${said ? `${said}, ${inHundred(back.probability)}` : `as expected, ${inHundred(1 - back.probability)}`}`;
}
