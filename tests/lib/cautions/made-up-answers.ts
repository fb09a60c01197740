import { CAUTION_CARDS } from '@/lib/cautions/caution-cards';
import type { CautionAnswer } from '@/lib/record/caution-answer';
import { calendarDay } from '@/lib/units/calendar-day';

/** An answer of “no” to a card as its words are today, on 25 Nov 2026 unless it says otherwise. */
export function answerTo(card: string, rest: Partial<CautionAnswer> = {}): CautionAnswer {
  const version = CAUTION_CARDS.find(({ id }) => id === card)?.version ?? 1;
  return { card, cardVersion: String(version), answer: 'absent', day: calendarDay('2026-11-25'), words: null, figures: null, ...rest };
}

/** The boxes of a grown person's leg whose supply is in order for 32 mmHg. */
export const NO_SUPPLY_DOUBT: Readonly<Record<string, string>> = {
  pressure: '32',
  risk: 'none',
  check: 'index',
  abpi: '1.02',
  abpiDay: '2026-10-01',
  by: 'KD',
};
