import type { CautionAnswer, CautionFigures } from '../record/caution-answer';
import type { Policy } from '../record/policy';
import { type CalendarDay, daysBetween, showDay } from '../units/calendar-day';
import type { CautionCard } from './caution-card';
import { legGarment } from './history-cards';

/** Blood supply to a leg: confirmed by an ankle–brachial index within the clinic's limits and not too old, or not confirmed. */
export const ARTERIAL_SUPPLY: CautionCard = {
  id: 'arterial-supply',
  version: 1,
  title: 'Blood supply to the leg',
  asked: 'once',
  shown: (about) => (legGarment(about) ? ['garment for a leg'] : undefined),
  question: ({ policy }) =>
    `Is an ankle–brachial index missing, older than ${policy.abpiDays} days, below ${policy.abpiLow} or above ${policy.abpiHigh}?`,
  ifPresent: 'Arterial supply is not confirmed for this pressure. Do not issue until it is checked.',
  limits: ['abpiLow', 'abpiHigh', 'abpiDays'],
  kind: 'published',
  source:
    'Contraindicated below 0.6 in the international consensus (Rabe 2020); an index is asked for above 20 mmHg in United Kingdom guidance; guidelines differ on 0.5, 0.6 or 0.8 and 1.3 or 1.4, so the clinic’s own limits count.',
};

/**
 * Why an ankle–brachial index does not confirm the supply on a day; undefined where it does.
 *
 * Example, with the default limits: 0.72 of any day is below 0.8; 1.02 of 400 days ago is too old; 1.02 of last month confirms.
 */
export function whyNotConfirmed(figures: CautionFigures | null, policy: Policy, today: CalendarDay): string | undefined {
  const { abpi, abpiDay } = figures ?? {};
  if (abpi === undefined || abpiDay === undefined) return 'No ankle–brachial index with its day is on record.';
  const of = `The index of ${showDay(abpiDay)}, ${abpi},`;
  if (abpi < policy.abpiLow) return `${of} is below ${policy.abpiLow}.`;
  if (abpi > policy.abpiHigh) return `${of} is above ${policy.abpiHigh}: arteries may be too stiff to read.`;
  const old = daysBetween(abpiDay, today);
  return old > policy.abpiDays ? `${of} is ${old} days old, more than ${policy.abpiDays}.` : undefined;
}

/** Whether the supply has to be asked about again although it was once answered: the index has grown too old or the limits have changed. */
export function supplyLapsed(answer: CautionAnswer, policy: Policy, today: CalendarDay): string | undefined {
  return answer.answer === 'absent' ? whyNotConfirmed(answer.figures, policy, today) : undefined;
}
