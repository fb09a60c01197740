import { ringWords, type WorkFacts } from '../record/work-facts';
import { type CalendarDay, showDay } from '../units/calendar-day';
import { withoutFullStop } from '../units/without-full-stop';

/**
 * What is written down of a person for the work, in short parts in the order in which they are looked for; none where nothing is.
 *
 * Example: `referral to 30 Apr 2027, Dr. Pell` · `right-handed` · `stage II` · `scald at home, 20 Nov 2025` · `42.5 % burnt`.
 */
export function workParts(facts: WorkFacts, today: CalendarDay): readonly string[] {
  const { referralDay, referralUntil, prescriber, dominantHand, stage, cause, injured, healed, grafted, burntPct, consents } = facts;
  const referral = referralUntil
    ? [`${referralUntil < today ? 'referral ended' : 'referral to'} ${showDay(referralUntil)}`]
    : referralDay
      ? [`referred ${showDay(referralDay)}`]
      : [];
  const from = [...referral, ...(prescriber ? [prescriber] : [])].join(', ');
  const happened = [...(cause ? [withoutFullStop(cause)] : []), ...(injured ? [showDay(injured)] : [])].join(', ');
  return [
    ...(from ? [from] : []),
    ...(dominantHand ? [dominantHand === 'both' ? 'uses both hands alike' : `${dominantHand}-handed`] : []),
    ...(stage ? [`stage ${withoutFullStop(stage)}`] : []),
    ...(happened ? [happened] : []),
    ...(healed ? [`healed ${showDay(healed)}`] : []),
    ...(grafted.length > 0 ? [`grafted ${grafted.map(showDay).join(', ')}`] : []),
    ...(burntPct === null ? [] : [`${burntPct}\u202f% burnt`]),
    ...consents.map(({ to, day }) => `agreed ${showDay(day)}: ${withoutFullStop(to)}`),
  ];
}

/** The same with whom to ring in front. */
export function workSentences(facts: WorkFacts, today: CalendarDay): string {
  const ring = ringWords(facts);
  return [...(ring ? [ring] : []), ...workParts(facts, today)].join(' · ');
}
