import type { CautionAnswer } from '../record/caution-answer';
import type { WornPlace } from '../record/patient-record';
import { daysBetween, showDay } from '../units/calendar-day';
import { isSupplyCard, supplyTooLow } from './blood-supply-cards';
import { type CautionAbout, type CautionCard, concerns } from './caution-card';
import { CAUTION_CARDS, cardStates } from './caution-cards';

/** A piece that is ordered or handed over: its limb, and the highest pressure of its class where one is recorded, mmHg. */
export type HeldPiece = WornPlace & { readonly pressureMmHg: number | null };

/** A caution that says stop: the order or hand-over waits until it is answered anew, or is lifted by name, reason and the prescriber's word. */
export type Stop = { readonly key: string; readonly card: string; readonly title: string; readonly message: string };

/** How a stop was lifted; the person who lifts it is the one signed in. */
export type Lifted = { readonly key: string; readonly reason: string; readonly prescriber: string; readonly word: string };

/** The card under which a lifted hold is kept, and the one that says why cautions were not asked at a hand-over. */
export const LIFTED_CARD = 'hold-lifted';
export const UNASKED_CARD = 'hand-over-unasked';

/** The latest “yes” answers, each with its card; undefined where the program knows no such card. */
export function yesAnswers(cautions: readonly CautionAnswer[]): readonly { answer: CautionAnswer; card: CautionCard | undefined }[] {
  return cautions
    .filter(({ answer, card }) => answer === 'present' && card !== LIFTED_CARD && card !== UNASKED_CARD)
    .map((answer) => ({ answer, card: CAUTION_CARDS.find(({ id }) => id === answer.card) }));
}

/**
 * The cautions that hold a piece back, by the latest answers alone. A card that only asks the prescriber holds nothing back.
 *
 * The key changes when the card is answered anew, so that a hold lifted for one answer is open again after the next.
 * Shape: the latest answers of a patient, the limb of a piece. Example: redness answered “yes” holds every piece; a swollen left arm
 * holds pieces for the left arm.
 */
export function stopsOn(cautions: readonly CautionAnswer[], piece: WornPlace): Stop[] {
  return yesAnswers(cautions).flatMap(({ answer, card }) => {
    if (!card || card.says === 'ask the prescriber' || !concerns(card, piece)) return [];
    const { day, words } = answer;
    const message = `${card.title}: “yes” on ${showDay(day)}${words ? `, ${words}` : ''}. ${card.ifPresent}`;
    return [{ key: `stop ${card.id}/${answer.cardVersion} ${day} ${words ?? ''}`.trim(), card: card.id, title: card.title, message }];
  });
}

/**
 * Cards that are not answered for this piece: never asked, due, lapsed or not known, a blood supply checked for less pressure, or a card
 * of each visit whose “no” is older than the days given. Each with why.
 *
 * Shape: a patient, the piece, the clinic's days before an order or hand-over; titles with their reason, none where all count.
 */
export function unaskedFor(about: CautionAbout, piece: HeldPiece, days: number): string[] {
  return cardStates(about).flatMap(({ card, answer, standing, eachVisit, because }) => {
    if (standing === 'yes' || !concerns(card, piece)) return [];
    if (!answer) return [`${card.title} (not asked)`];
    if (answer.answer === 'not-known') return [`${card.title} (not known on ${showDay(answer.day)})`];
    if (standing !== 'answered')
      return [`${card.title} (${because ? `${standing}: ${because}` : `${standing}, last asked on ${showDay(answer.day)}`})`];
    const low = isSupplyCard(card.id) ? supplyTooLow(answer, piece.pressureMmHg) : undefined;
    if (low) return [`${card.title} (${low})`];
    return eachVisit && daysBetween(answer.day, about.today) > days ? [`${card.title} (last asked on ${showDay(answer.day)})`] : [];
  });
}

/** A lifted hold in words, as it is kept with an order or a piece. */
export function liftedInWords({ reason, prescriber, word }: Omit<Lifted, 'key'>): string {
  return `Goes on because: ${reason} Prescriber: ${prescriber}. Their word: ${word}`;
}

/**
 * Stops lifted on a form by its boxes `reason0`, `prescriber0`, `word0` and `stop0` with the key that was shown; a sentence beside each box
 * that is missing. All three are asked for: nobody goes on in silence.
 */
export function readLifted(
  typed: Readonly<Record<string, string>>,
  stops: readonly Stop[],
): { readonly lifted: readonly Lifted[]; readonly errors: Readonly<Record<string, string>> } {
  const errors: Record<string, string> = {};
  const lifted = stops.map(({ key }, index) => {
    const box = (name: string, ask: string): string => {
      const text = (typed[`${name}${index}`] ?? '').trim().slice(0, 300);
      if (text === '') errors[`${name}${index}`] = ask;
      return text;
    };
    if (typed[`stop${index}`] !== key)
      errors.form = 'The cautions have changed since the page was opened. Nothing was saved; read them again.';
    const reason = box('reason', 'Say why it goes on although this caution says stop.');
    const prescriber = box('prescriber', 'Name the prescriber who decided it.');
    return { key, reason, prescriber, word: box('word', 'Write what the prescriber said, on which day and how.') };
  });
  return { lifted, errors };
}
