import { yesAnswers } from '../../cautions/hold';
import { showDay } from '../../units/calendar-day';
import type { Rule } from '../prompt';

/**
 * A caution card stands answered as present → tell the prescriber. It stays until somebody answers the card anew.
 *
 * Telling the prescriber is logged as the prompt's answer and puts the prompt away, not the card: its line stays on the patient's page.
 */
export const standingCaution: Rule = {
  id: 'standing-caution',
  version: 2,
  apply: ({ record }) => {
    const cards = yesAnswers(record.cautions ?? []).map(({ answer, card }) => ({ ...answer, on: card }));
    const first = [...cards].sort((one, other) => one.day.localeCompare(other.day))[0];
    if (!first) return [];
    const named = cards.map(({ on, card }) => on?.title ?? card);
    return [
      {
        action: 'refer',
        due: first.day,
        title:
          named.length === 1
            ? `A caution stands: ${named[0]}. Tell the prescriber.`
            : `${named.length} cautions stand. Tell the prescriber.`,
        facts: cards.map(({ on, card, day, words }) =>
          `${on?.title ?? card}, answered on ${showDay(day)}${words ? `: ${words}` : ''}. ${on?.ifPresent ?? ''}`.trim(),
        ),
        missing: [],
        limits: [...new Set(cards.flatMap(({ on }) => on?.limits ?? []))],
        cause: 'red flag: cautions',
        about: {},
        inputs: cards
          .map(({ card, cardVersion, day, words }) => `${card}/${cardVersion} ${day} ${words ?? ''}`)
          .sort()
          .join(', '),
      },
    ];
  },
};
