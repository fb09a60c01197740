import type { CautionAnswer } from '../record/caution-answer';
import { ageInYears } from '../units/age';
import { addDays, type CalendarDay, showDay } from '../units/calendar-day';
import { kg } from '../units/mass';
import { BLOOD_SUPPLY_CARDS, isSupplyCard, supplyJudged } from './blood-supply-cards';
import { askedEachVisit, type CautionAbout, type CautionCard, cardWording } from './caution-card';
import { GROWING_CARDS } from './growing-cards';
import { HEAT_CARD, HISTORY_CARDS, RETIRED_CARDS } from './history-cards';
import { NEW_SWELLING_CARDS } from './new-swelling-cards';
import { SINCE_LAST_CARDS } from './since-last-cards';
import { VISIT_CARDS } from './visit-cards';

const [ESCALATE, ...OTHER_VISIT_CARDS] = VISIT_CARDS;

/** Every card, the most urgent of a visit first. A new card is one entry in one of the lists. */
export const CAUTION_CARDS: readonly CautionCard[] = [
  ...(ESCALATE ? [ESCALATE] : []),
  ...NEW_SWELLING_CARDS,
  ...OTHER_VISIT_CARDS,
  ...GROWING_CARDS,
  ...SINCE_LAST_CARDS,
  ...BLOOD_SUPPLY_CARDS,
  ...HISTORY_CARDS,
  HEAT_CARD,
  ...RETIRED_CARDS,
];

/**
 * How a card stands: answered yes; to be asked for the first time or anew; a “no” that has lapsed; or answered and counting.
 *
 * “Not asked” is never a “no”: only `answered` counts as one.
 */
export type CardStanding = 'yes' | 'not asked' | 'due' | 'lapsed' | 'answered';

/**
 * A card as it stands for a patient: how, since when an answer no longer counts, and the answer that holds.
 *
 * `present` stays until somebody answers the card anew with words, also when the card would no longer be asked.
 */
export type CardState = {
  readonly card: CautionCard;
  readonly reasons: readonly string[];
  readonly wording: string;
  readonly answer: CautionAnswer | undefined;
  readonly standing: CardStanding;
  readonly present: boolean;
  readonly toAsk: boolean;
  readonly eachVisit: boolean;
  /** The day from which the last “no” counts no more; null where there is none. */
  readonly dueOn: CalendarDay | null;
  /** Why it is asked again, where that is not a newer visit or the days alone. */
  readonly because: string | null;
};

const ORDER: readonly CardStanding[] = ['yes', 'not asked', 'due', 'lapsed', 'answered'];

/**
 * The cards of a patient on a day: those that stand as present first, then those to ask, those lapsed, the others.
 *
 * A card of each visit is asked again once a newer visit is on record than its answer; every card when its days are over, when an event
 * was noted since or the weight changed, when its version has changed or its answer was not known before the newest visit; blood supply also when its check has
 * lapsed or the clinic's limits have changed.
 * Shape: a record with the latest answer to each card; one state a card. Cards that are neither for this patient nor present are left out.
 */
export function cardStates(about: CautionAbout): CardState[] {
  const states = CAUTION_CARDS.flatMap((card): CardState[] => {
    const answer = about.record.cautions?.find((one) => one.card === card.id);
    const reasons = card.shown(about);
    const present = answer?.answer === 'present';
    if (!reasons && !present) return [];
    const { standing, because } = standingOf(card, answer, about);
    const toAsk = reasons !== undefined && standing !== 'yes' && standing !== 'answered';
    const dueOn = answer?.answer === 'absent' ? addDays(answer.day, about.policy[card.lasts]) : null;
    const said = { card, reasons: reasons ?? ['answered “yes” earlier'], wording: cardWording(card, about), answer };
    return [{ ...said, standing, present, toAsk, eachVisit: askedEachVisit(card, about), dueOn, because }];
  });
  return states
    .map((state, order) => ({ state, order }))
    .sort((one, other) => ORDER.indexOf(one.state.standing) - ORDER.indexOf(other.state.standing) || one.order - other.order)
    .map(({ state }) => state);
}

type Standing = Pick<CardState, 'standing' | 'because'>;

function standingOf(card: CautionCard, answer: CautionAnswer | undefined, about: CautionAbout): Standing {
  const { record, policy, today } = about;
  const is = (standing: CardStanding, because: string | null = null): Standing => ({ standing, because });
  if (!answer) return is('not asked');
  if (answer.answer === 'present') return is('yes');
  if (answer.cardVersion !== String(card.version)) return is('due', 'its words have changed');
  const newest = record.visits.at(-1)?.day;
  const olderThanVisit = newest !== undefined && answer.day < newest;
  if (answer.answer === 'not-known') return is(olderThanVisit || answer.day < today ? 'due' : 'answered', 'it was not known');
  const event = record.events?.findLast(({ day }) => day > answer.day && day <= today);
  if (event) return is('lapsed', `${event.kind} on ${showDay(event.day)}`);
  const heavier = askedEachVisit(card, about) ? undefined : weightSince(answer.day, about);
  if (heavier) return is('lapsed', heavier);
  const supply = isSupplyCard(card.id) ? supplyJudged(answer.figures, about) : undefined;
  if (supply && supply.says !== 'go') return is('lapsed', supply.why);
  if (today >= addDays(answer.day, policy[card.lasts])) return is('lapsed');
  return is(olderThanVisit && askedEachVisit(card, about) ? 'due' : 'answered');
}

/** How a grown person's weight has changed since a day by more than the clinic looks at, in words; undefined where it has not. */
function weightSince(day: CalendarDay, { record, policy, today }: CautionAbout): string | undefined {
  if (ageInYears(record.born, today) < policy.grownFromYears) return undefined;
  const weighed = record.visits.flatMap((visit) => (visit.weight ? [{ day: visit.day, kg: kg(visit.weight) }] : []));
  const [then, now] = [weighed.findLast((one) => one.day <= day), weighed.at(-1)];
  if (!then || !now) return undefined;
  const change = now.kg - then.kg;
  const beyond = Math.abs(change) > (then.kg * policy.weightLookPct) / 100 + 1e-9;
  return beyond ? `weight changed by ${((100 * change) / then.kg).toFixed(0)} % since` : undefined;
}

/**
 * How a patient's cards stand, in a line. A card answered “not known” is not among those answered.
 *
 * Example: `Cautions: 3 of 9 answered, last on 24 Nov 2026; 1 answered “yes”.`
 */
export function cautionLine(states: readonly CardState[]): string {
  const counts = states.filter(({ standing, answer }) => standing === 'yes' || (standing === 'answered' && answer?.answer === 'absent'));
  const days = states.flatMap(({ answer }) => (answer ? [answer.day] : [])).sort();
  const last = days.at(-1);
  const present = states.filter((state) => state.present).length;
  const lapsed = states.filter(({ standing }) => standing === 'lapsed').length;
  return `Cautions: ${counts.length} of ${states.length} answered${last ? `, last on ${showDay(last)}` : ''}${lapsed > 0 ? `; ${lapsed} lapsed` : ''}${present > 0 ? `; ${present} answered “yes”` : ''}.`;
}
