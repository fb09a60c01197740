import { CARD_ANSWERS, type CardAnswer, type CautionFigures } from '../record/caution-answer';
import { type CalendarDay, readDay } from '../units/calendar-day';
import { isSupplyCard, supplyJudged } from './blood-supply-cards';
import { type CardBox, type CautionAbout, limitsOfCard } from './caution-card';
import type { CardState } from './caution-cards';
import { SWELLING_SIGNS } from './new-swelling-cards';

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

/** What a form of cards says, or why it does not. */
export type CautionsRead =
  | { readonly kind: 'read'; readonly answers: readonly CardAnswered[] }
  | { readonly kind: 'refused'; readonly errors: CautionErrors };

const LONGEST = 500;

/**
 * The answers of a form that shows some cards; cards without an answer are left as they are.
 *
 * Refused: a card that stands as present answered otherwise without words; a blood supply said not to be in doubt that the clinic's limits
 * do not let pass for the pressure planned; a “no” beside a sign answered “yes”; a figure or day that cannot be read; a form without any
 * answer. Present never needs words or figures.
 * Shape: boxes `card`, `card/words` and `card/box` of the states shown.
 */
export function readCautionForm(typed: Readonly<Record<string, string>>, states: readonly CardState[], about: CautionAbout): CautionsRead {
  const errors: Record<string, string> = {};
  const answers = states.flatMap(({ card, present, wording }): CardAnswered[] => {
    const answer = CARD_ANSWERS.find((one) => one === typed[card.id]);
    const words = (typed[`${card.id}/words`] ?? '').trim().slice(0, LONGEST);
    const details = readBoxes(card.id, card.boxes?.(about) ?? [], typed, about.today, errors);
    if (!answer) {
      if (words !== '' || Object.keys(details).length > 0) errors[card.id] = 'Choose an answer for what was written here.';
      return [];
    }
    if (present && answer !== 'present' && words === '')
      errors[`${card.id}/words`] = 'This card stands answered “yes”. Write in a few words what has changed.';
    const figures = figuresOf(details);
    const against = answer === 'absent' && !hasErrors(errors, card.id) ? whyNotNo(card.id, figures, about) : undefined;
    if (against) errors[card.id] = against;
    return [
      {
        card: card.id,
        cardVersion: String(card.version),
        answer,
        wording,
        words: words || null,
        figures: { ...figures, limits: limitsOfCard(card, about.policy) },
      },
    ];
  });
  if (Object.keys(errors).length > 0) return { kind: 'refused', errors };
  if (answers.length > 0) return { kind: 'read', answers };
  return { kind: 'refused', errors: { form: 'Nothing is answered yet, so there is nothing to keep.' } };
}

function whyNotNo(card: string, figures: CautionFigures, about: CautionAbout): string | undefined {
  if (isSupplyCard(card)) {
    const { says, why } = supplyJudged(figures, about);
    return says === 'go'
      ? undefined
      : `${why} Write the check in the boxes below; or answer “yes”, which holds orders and hand-overs until it is settled.`;
  }
  const signs = SWELLING_SIGNS.filter((sign) => card.startsWith('new-swelling') && figures.details?.[sign] === 'yes');
  return signs.length > 0 ? `New ${signs.join(' and ')} is a “yes” here.` : undefined;
}

function hasErrors(errors: Readonly<Record<string, string>>, card: string): boolean {
  return Object.keys(errors).some((name) => name === card || name.startsWith(`${card}/`));
}

/** Figures as kept: the typed text of each box, and the index as a figure with its day where there is one. */
function figuresOf(details: Readonly<Record<string, string>>): CautionFigures {
  if (Object.keys(details).length === 0) return {};
  const day = readDay(details.abpiDay ?? '');
  return {
    details,
    ...(details.abpi ? { abpi: Number(details.abpi.replace(',', '.')) } : {}),
    ...(details.abpi && day.kind === 'read' ? { abpiDay: day.value } : {}),
  };
}

function readBoxes(
  card: string,
  boxes: readonly CardBox[],
  typed: Readonly<Record<string, string>>,
  today: CalendarDay,
  errors: Record<string, string>,
): Readonly<Record<string, string>> {
  const found = boxes.flatMap((box): (readonly [string, string])[] => {
    const name = `${card}/${box.name}`;
    const text = (typed[name] ?? '').trim().slice(0, LONGEST);
    if (text === '') return [];
    const refusal = whyUnreadable(box, text, today);
    if (refusal) errors[name] = refusal;
    const day = box.kind === 'day' ? readDay(text) : undefined;
    return [[box.name, day?.kind === 'read' ? day.value : text]];
  });
  return Object.fromEntries(found);
}

function whyUnreadable(box: CardBox, text: string, today: CalendarDay): string | undefined {
  if (box.kind === 'choice') return box.choices.some(({ key }) => key === text) ? undefined : 'Choose one of the list.';
  if (box.kind === 'day') {
    const day = readDay(text);
    if (day.kind !== 'read') return day.reason;
    return day.value > today && !box.ahead ? 'This day has not come yet.' : undefined;
  }
  if (box.kind === 'text') return undefined;
  const value = /^\d{1,4}([.,]\d{1,3})?$/.test(text) ? Number(text.replace(',', '.')) : Number.NaN;
  if (value >= box.least && value <= box.most) return undefined;
  return `“${text}” cannot be: type a figure from ${box.least} to ${box.most}${box.unit ? ` ${box.unit}` : ''}.`;
}
