import type { Policy } from '../limits/policy';
import { isNoAnswer, type NoAnswer } from '../outcome';
import type { Piece } from '../record/patient-record';
import { addDays, type CalendarDay } from '../units/calendar-day';
import type { OutgrowDate } from './outgrow-date';

/** The last day to order so that the next piece arrives in time, and what binds it. */
export type OrderBy = { readonly day: CalendarDay; readonly because: 'end of life' | 'outgrown'; readonly neededBy: CalendarDay };

/**
 * Order-by day = min(end of life, early outgrow day) − lead time − measuring time.
 *
 * Shape: a piece, its outgrow dates and end of life, the policy; a calendar day. No answer when neither end is known.
 * Source: engine section 8. Example: life ends 11 Jan, lead 14 days, measuring 7: order by 21 Dec.
 */
export function orderBy(
  piece: Piece,
  outgrow: Pick<OutgrowDate, 'earlyDay'> | NoAnswer,
  endOfLife: CalendarDay | NoAnswer,
  policy: Policy,
): OrderBy | NoAnswer {
  const outgrown = isNoAnswer(outgrow) ? null : outgrow.earlyDay;
  const life = isNoAnswer(endOfLife) ? null : endOfLife;
  const neededBy = [life, outgrown].filter((day) => day !== null).sort()[0];
  if (!neededBy) return { noAnswer: isNoAnswer(endOfLife) ? endOfLife.noAnswer : 'No end is in sight.' };
  const days = piece.leadDays + policy.measuringDays;
  return { day: addDays(neededBy, -days), because: neededBy === outgrown && neededBy !== life ? 'outgrown' : 'end of life', neededBy };
}
