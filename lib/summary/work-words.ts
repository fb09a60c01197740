import { contactWords, ringWords, type WorkFacts } from '../record/work-facts';
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

/**
 * Everything that is written down of a person for the work: whom to call, in order, what the parts above leave out of a referral, then they.
 *
 * Every state of the history is read in these words, so none of the facts is left out. Empty where nothing is written down.
 *
 * Example: `Call Ada Vance (mother), 555-0177, with an interpreter` · `then Tom Vance, no number` · `ordered: two sleeves`.
 */
export function workSentences(facts: WorkFacts, today: CalendarDay): string {
  const { contacts, prescriberReach, referralFor, referralDay, referralUntil } = facts;
  const call = ringWords(facts);
  return [
    ...(call ? [call] : []),
    ...contacts.slice(1).map((one) => `then ${contactWords(one)}`),
    ...interpreterParts(facts),
    ...(referralDay && referralUntil ? [`referred ${showDay(referralDay)}`] : []),
    ...(prescriberReach ? [`prescriber reached: ${withoutFullStop(prescriberReach)}`] : []),
    ...(referralFor ? [`ordered: ${withoutFullStop(referralFor)}`] : []),
    ...workParts(facts, today),
  ].join(' · ');
}

/** That an interpreter is needed, where nobody to call stands whose words would say it. */
export function interpreterParts({ contacts, interpreter }: WorkFacts): readonly string[] {
  return interpreter && contacts.length === 0 ? ['an interpreter is needed'] : [];
}
