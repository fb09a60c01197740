import { CARD_ANSWERS, type CardAnswer, type CautionFigures } from '../record/caution-answer';
import { type CalendarDay, readDay } from '../units/calendar-day';
import { ARTERIAL_SUPPLY, whyNotConfirmed } from './arterial-supply';
import { type CautionAbout, limitsOfCard } from './caution-card';
import type { CardState } from './caution-cards';

/** One card answered on a form, with the wording it was asked in. */
export type CardAnswered = {
  readonly card: string;
  readonly cardVersion: string;
  readonly answer: CardAnswer;
  readonly wording: string;
  readonly words: string | null;
  readonly figures: CautionFigures;
};

/** Why a box of the form was not taken, by its name. */
export type CautionErrors = Readonly<Record<string, string>>;

/**
 * The answers of a form that shows some cards; cards without an answer are left as they are.
 *
 * Refused: a card that stands as present answered otherwise without words, a blood supply said to be confirmed by an index that the
 * clinic's limits do not let pass, an index or day that cannot be read, a form without any answer. Present never needs words.
 * Shape: boxes `card`, `card/words`, `arterial-supply/abpi`, `arterial-supply/abpiDay` and the states shown.
 */
export function readCautionForm(
  typed: Readonly<Record<string, string>>,
  states: readonly CardState[],
  about: CautionAbout,
): { readonly answers: readonly CardAnswered[] } | { readonly errors: CautionErrors } {
  const errors: Record<string, string> = {};
  const answers = states.flatMap(({ card, present, wording }): CardAnswered[] => {
    const answer = CARD_ANSWERS.find((one) => one === typed[card.id]);
    const words = (typed[`${card.id}/words`] ?? '').trim().slice(0, 500);
    if (!answer) {
      if (words !== '') errors[card.id] = 'Choose an answer for what was written here.';
      return [];
    }
    if (present && answer !== 'present' && words === '')
      errors[`${card.id}/words`] = 'This card stands answered “yes”. Write in a few words what has changed.';
    const found = card === ARTERIAL_SUPPLY ? readIndex(typed, answer, about, errors) : {};
    const figures = { ...found, limits: limitsOfCard(card, about.policy) };
    return [{ card: card.id, cardVersion: String(card.version), answer, wording, words: words || null, figures }];
  });
  if (Object.keys(errors).length > 0) return { errors };
  return answers.length > 0 ? { answers } : { errors: { form: 'Nothing is answered yet, so there is nothing to keep.' } };
}

function readIndex(
  typed: Readonly<Record<string, string>>,
  answer: CardAnswer,
  { policy, today }: CautionAbout,
  errors: Record<string, string>,
): { abpi?: number; abpiDay?: CalendarDay } {
  const name = ARTERIAL_SUPPLY.id;
  const [indexText, dayText] = [(typed[`${name}/abpi`] ?? '').trim(), (typed[`${name}/abpiDay`] ?? '').trim()];
  const index = indexText === '' ? undefined : Number(indexText.replace(',', '.'));
  const readable = index === undefined || (/^\d([.,]\d{1,3})?$/.test(indexText) && index > 0 && index < 4);
  const day = dayText === '' ? undefined : readDay(dayText);
  if (!readable) errors[`${name}/abpi`] = `“${indexText}” is no ankle–brachial index. Type it like 0.95.`;
  if (day && day.kind !== 'read') errors[`${name}/abpiDay`] = day.reason;
  if (day?.kind === 'read' && day.value > today) errors[`${name}/abpiDay`] = 'This day has not come yet.';
  const figures = {
    ...(index !== undefined && readable ? { abpi: index } : {}),
    ...(day?.kind === 'read' ? { abpiDay: day.value } : {}),
  };
  const why = answer === 'absent' ? whyNotConfirmed(figures, policy, today) : undefined;
  if (why && !errors[`${name}/abpi`]) errors[name] = `${why} Answer “yes” until it is checked.`;
  return figures;
}
