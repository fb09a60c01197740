import type { NoAnswer } from '../outcome';
import type { Piece } from '../record/patient-record';
import { addDays, type CalendarDay, daysBetween } from '../units/calendar-day';

/** Last day of a piece's expected life: first wear plus its life. No answer before it has been worn. Age counts from first wear, never from the order. */
export function endOfLife(piece: Piece): CalendarDay | NoAnswer {
  if (!piece.firstWorn) return { noAnswer: 'Not worn yet.' };
  return addDays(piece.firstWorn, piece.lifeDays);
}

/** Calendar days since first wear; no answer before it. Example: first worn 14 Aug, on 25 Nov: 103 days. */
export function daysWorn(piece: Piece, today: CalendarDay): number | NoAnswer {
  if (!piece.firstWorn || piece.firstWorn > today) return { noAnswer: 'Not worn yet.' };
  return daysBetween(piece.firstWorn, piece.retired && piece.retired < today ? piece.retired : today);
}

/** True while a piece may be worn: not retired by that day. */
export function inUse(piece: Piece, today: CalendarDay): boolean {
  return piece.retired === null || piece.retired > today;
}
