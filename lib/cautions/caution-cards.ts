import type { CautionAnswer } from '../record/caution-answer';
import { showDay } from '../units/calendar-day';
import { ARTERIAL_SUPPLY, supplyLapsed } from './arterial-supply';
import { type CautionAbout, type CautionCard, cardWording } from './caution-card';
import { HISTORY_CARDS } from './history-cards';
import { VISIT_CARDS } from './visit-cards';

/** Every card, the most urgent of a visit first. A new card is one entry in one of the lists. */
export const CAUTION_CARDS: readonly CautionCard[] = [...VISIT_CARDS, ARTERIAL_SUPPLY, ...HISTORY_CARDS];

/**
 * A card as it stands for a patient: whether it has to be asked now, and the answer that holds.
 *
 * `present` stays until somebody answers the card anew with words, also when the card would no longer be asked.
 */
export type CardState = {
  readonly card: CautionCard;
  readonly reasons: readonly string[];
  readonly wording: string;
  readonly answer: CautionAnswer | undefined;
  readonly present: boolean;
  readonly toAsk: boolean;
};

/**
 * The cards of a patient on a day: those that stand as present first, then those to ask, then the others.
 *
 * A card of each visit is asked again once a newer visit is on record than its answer. Any card is asked again when its version has
 * changed or its answer was not known before the newest visit; blood supply also when its index has lapsed.
 * Shape: a record with the latest answer to each card; one state a card. Cards that are neither for this patient nor present are left out.
 */
export function cardStates(about: CautionAbout): CardState[] {
  const states = CAUTION_CARDS.flatMap((card) => {
    const answer = about.record.cautions?.find((one) => one.card === card.id);
    const reasons = card.shown(about);
    const present = answer?.answer === 'present';
    if (!reasons && !present) return [];
    const toAsk = reasons !== undefined && isDue(card, answer, about);
    return [{ card, reasons: reasons ?? ['answered “yes” earlier'], wording: cardWording(card, about), answer, present, toAsk }];
  });
  return states
    .map((state, order) => ({ state, order }))
    .sort((one, other) => rank(one.state) - rank(other.state) || one.order - other.order)
    .map(({ state }) => state);
}

function isDue(card: CautionCard, answer: CautionAnswer | undefined, { record, policy, today }: CautionAbout): boolean {
  if (!answer || answer.cardVersion !== String(card.version)) return true;
  const newest = record.visits.at(-1)?.day;
  const olderThanVisit = newest !== undefined && answer.day < newest;
  if (olderThanVisit && (card.asked === 'each visit' || answer.answer === 'not-known')) return true;
  return card === ARTERIAL_SUPPLY && supplyLapsed(answer, policy, today) !== undefined;
}

function rank({ present, toAsk }: CardState): number {
  if (present) return 0;
  return toAsk ? 1 : 2;
}

/**
 * How a patient's cards stand, in a line.
 *
 * Example: `Cautions: 3 of 9 asked, last on 24 Nov 2026; 1 to be referred.`
 */
export function cautionLine(states: readonly CardState[]): string {
  const asked = states.filter(({ toAsk }) => !toAsk).length;
  const days = states.flatMap(({ answer }) => (answer ? [answer.day] : [])).sort();
  const last = days.at(-1);
  const present = states.filter((state) => state.present).length;
  return `Cautions: ${asked} of ${states.length} asked${last ? `, last on ${showDay(last)}` : ''}${present > 0 ? `; ${present} to be referred` : ''}.`;
}
