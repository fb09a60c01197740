import type { SourceKind } from '../limits/limit';
import type { LimitName } from '../limits/limits';
import type { Policy } from '../limits/policy';
import type { LimbSide, PatientRecord, WornPlace } from '../record/patient-record';
import type { CalendarDay } from '../units/calendar-day';

/** What the tape saw that a card asks about: one limb, in words. */
export type SeenOnLimb = LimbSide & { readonly words: string };

/** What a card looks at: the record, the clinic's limits, the day; and what the engine saw, where it was asked. */
export type CautionAbout = {
  readonly record: PatientRecord;
  readonly policy: Policy;
  readonly today: CalendarDay;
  readonly seen?: readonly SeenOnLimb[];
};

/** What follows from a “yes”: an emergency, the same day, nothing more on this limb until it is checked, or a question to the prescriber. */
export type CardSays = 'emergency' | 'same day' | 'stop' | 'ask the prescriber';

/** One box beside an answer. `least` and `most` bound a number; a day may lie ahead where it says so. */
export type CardBox = {
  readonly name: string;
  readonly label: string;
  readonly hint?: string;
} & (
  | { readonly kind: 'text' }
  | { readonly kind: 'day'; readonly ahead?: true }
  | { readonly kind: 'number'; readonly unit: string; readonly least: number; readonly most: number }
  | { readonly kind: 'choice'; readonly choices: readonly { readonly key: string; readonly words: string }[] }
);

/**
 * One caution: when it is asked, in which words, what follows where it is present, and where it comes from.
 *
 * The question is put so that “yes” is always the thing to worry about. A card names signs and steps, never a disease that somebody may
 * have; one that is known and on record is asked for by its name. Raise `version` when its question, its boxes or its
 * meaning change: it is asked again. Words of `ifPresent` alone that say the same more plainly ask nobody again.
 */
export type CautionCard = {
  readonly id: string;
  readonly version: number;
  readonly title: string;
  /** Asked anew at each visit and hand-over, or only when its answer has lapsed. */
  readonly eachVisit: boolean | ((about: CautionAbout) => boolean);
  /** The limit that says how many days a “no” counts. */
  readonly lasts: LimitName;
  readonly says: CardSays;
  /** The limbs it is about; absent where it is about all of the person. */
  readonly limb?: LimbSide['limb'];
  readonly side?: LimbSide['side'];
  /** Why this patient is asked, at least one reason; undefined when the card is not for them. */
  readonly shown: (about: CautionAbout) => readonly string[] | undefined;
  readonly question: (about: CautionAbout) => string;
  /** What to do where the answer is `present`. */
  readonly ifPresent: string;
  readonly boxes?: (about: CautionAbout) => readonly CardBox[];
  readonly limits: readonly LimitName[];
  readonly kind: SourceKind;
  readonly source: string;
};

/** The sentence that every card ends with. */
export const CARD_ENDING = 'This tool does not diagnose. Follow your local protocol and refer to the prescriber.';

/** A card in full, as it is asked and kept with its answer. */
export function cardWording(card: CautionCard, about: CautionAbout): string {
  return `${card.question(about)} ${card.ifPresent} ${CARD_ENDING}`;
}

/** The clinic's limits that stand on a card, by name; how long its “no” counts is among them. */
export function limitsOfCard(card: CautionCard, policy: Policy): Readonly<Record<string, number>> {
  return Object.fromEntries([...card.limits, card.lasts].map((name) => [name, policy[name]]));
}

/** Whether a card is asked anew at each visit and hand-over of this patient. */
export function askedEachVisit(card: CautionCard, about: CautionAbout): boolean {
  return typeof card.eachVisit === 'boolean' ? card.eachVisit : card.eachVisit(about);
}

/** Whether a card is about a piece for this limb. */
export function concerns(card: Pick<CautionCard, 'limb' | 'side'>, piece: WornPlace): boolean {
  return (card.limb === undefined || card.limb === piece.limb) && (card.side === undefined || card.side === piece.side);
}

/** Two choices for a sign asked beside a card. */
export const YES_NO = [
  { key: 'yes', words: 'yes' },
  { key: 'no', words: 'no' },
] as const;
