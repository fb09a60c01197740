import type { CalendarDay } from '../units/calendar-day';

/** What can be answered to a caution card. `present` is always the thing to worry about; `not-known` is asked again at the next visit. */
export const CARD_ANSWERS = ['absent', 'present', 'not-known'] as const;
export type CardAnswer = (typeof CARD_ANSWERS)[number];

/** Figures and choices that a card was answered with, and the clinic's limits that stood on it, each by its name. */
export type CautionFigures = {
  readonly abpi?: number;
  readonly abpiDay?: CalendarDay;
  /** What else was typed beside the answer, by the name of its box, as typed. */
  readonly details?: Readonly<Record<string, string>>;
  readonly limits?: Readonly<Record<string, number>>;
};

/** The latest answer to one card: which wording it was, what was said, on which day, and by whom where that is known. */
export type CautionAnswer = {
  readonly card: string;
  readonly cardVersion: string;
  readonly answer: CardAnswer;
  readonly day: CalendarDay;
  readonly words: string | null;
  readonly figures: CautionFigures | null;
  readonly byName?: string | null;
};
