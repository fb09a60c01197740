import type { SourceKind } from '../record/limit';
import type { LimitName } from '../record/limits';
import type { PatientRecord } from '../record/patient-record';
import type { Policy } from '../record/policy';
import type { CalendarDay } from '../units/calendar-day';

/** What a card looks at: the record, the clinic's limits, the day. */
export type CautionAbout = { readonly record: PatientRecord; readonly policy: Policy; readonly today: CalendarDay };

/**
 * One caution: when it is asked, in which words, what follows where it is present, and where it comes from.
 *
 * A card names signs and steps, never a disease that somebody may have. Raise `version` when words or meaning change: it is asked again.
 */
export type CautionCard = {
  readonly id: string;
  readonly version: number;
  readonly title: string;
  readonly asked: 'once' | 'each visit';
  /** Why this patient is asked, at least one reason; undefined when the card is not for them. */
  readonly shown: (about: CautionAbout) => readonly string[] | undefined;
  readonly question: (about: CautionAbout) => string;
  /** What to do where the answer is `present`. */
  readonly ifPresent: string;
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

/** The clinic's limits that stand on a card, by name. */
export function limitsOfCard(card: CautionCard, policy: Policy): Readonly<Record<string, number>> {
  return Object.fromEntries(card.limits.map((name) => [name, policy[name]]));
}
