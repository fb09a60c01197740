import type { CardBox, CautionAbout } from '@/lib/cautions/caution-card';
import type { CardStanding, CardState } from '@/lib/cautions/caution-cards';
import { detailsInWords } from '@/lib/cautions/details-in-words';
import { limitInWords } from '@/lib/limits/limit-in-words';
import { showDay } from '@/lib/units/calendar-day';
import { capitalized } from '@/lib/units/capitalized';
import { CARD_ANSWER_WORDS } from './card-answer-words';

/** One card as the screen shows it. */
export type ShownCard = {
  readonly id: string;
  readonly title: string;
  readonly question: string;
  readonly ifPresent: string;
  readonly reasons: string;
  readonly source: string;
  readonly limits: readonly string[];
  /** The last answer in words, or that there is none. */
  readonly last: string;
  readonly standing: CardStanding;
  /** Present, and says stop. */
  readonly holds: boolean;
  /** Which pieces a stop holds, in words. */
  readonly held: string;
  readonly boxes: readonly CardBox[];
  /** Day and person of the answer, for the sentence over those that count. */
  readonly asked: string;
};

/** A card's state as the screen shows it: sentences and boxes, nothing to work out. */
export function shownCard(state: CardState, about: CautionAbout): ShownCard {
  const { card, reasons, standing, answer } = state;
  return {
    id: card.id,
    title: card.title,
    question: card.question(about),
    ifPresent: `${capitalized(card.says)}. ${card.ifPresent}`,
    reasons: `${capitalized(reasons.join('; '))}.`,
    source: `${capitalized(card.kind)}: ${card.source}`,
    limits: [...card.limits, card.lasts].map((name) => limitInWords(name, about.policy)),
    last: lastAnswer(state, about),
    standing,
    holds: state.present && card.says !== 'ask the prescriber',
    held: card.limb ? `for the ${card.side ?? ''} ${card.limb}`.replace('  ', ' ') : 'for this person',
    boxes: card.boxes?.(about) ?? [],
    asked: answer ? `${showDay(answer.day)}${answer.byName ? `, asked by ${answer.byName}` : ''}` : '',
  };
}

function lastAnswer({ card, answer, standing, dueOn, because }: CardState, about: CautionAbout): string {
  if (!answer) return 'Not asked yet.';
  const said = `${CARD_ANSWER_WORDS[answer.answer]} on ${showDay(answer.day)}${answer.byName ? ` by ${answer.byName}` : ''}${answer.words ? `: ${answer.words}` : ''}.`;
  const details = detailsInWords(card, answer.figures, about);
  const counts = {
    lapsed: because ? ` Lapsed: ${because}.` : dueOn ? ` Lapsed on ${showDay(dueOn)}.` : '',
    due: because ? ` Asked again: ${because}.` : '',
  };
  const until = standing === 'answered' && dueOn ? ` Counts until ${showDay(dueOn)}.` : '';
  return `${said}${details ? ` ${details}` : ''}${standing === 'lapsed' || standing === 'due' ? counts[standing] : until}`.replaceAll(
    '..',
    '.',
  );
}
