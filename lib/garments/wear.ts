import { isNoAnswer, type NoAnswer } from '../outcome';
import type { Piece } from '../record/patient-record';
import { addDays, type CalendarDay, daysBetween } from '../units/calendar-day';
import { keptAs } from './piece-stage';

/**
 * Last day of a piece's expected life: first wear plus its life. No answer before it has been worn. Age counts from first wear, never from the order.
 * Example: first worn 1 March with 90 days of life → 30 May.
 */
export function endOfLife(piece: Piece): CalendarDay | NoAnswer {
  if (!piece.firstWorn) return { noAnswer: 'Not worn yet.' };
  return addDays(piece.firstWorn, piece.lifeDays);
}

/** Calendar days since first wear; no answer before it. Example: first worn 14 Aug, on 25 Nov: 103 days. */
export function daysWorn(piece: Piece, today: CalendarDay): number | NoAnswer {
  if (!piece.firstWorn || piece.firstWorn > today) return { noAnswer: 'Not worn yet.' };
  return daysBetween(piece.firstWorn, piece.retired && piece.retired < today ? piece.retired : today);
}

/** True while a piece may be worn: not retired by that day. Example: retired today → false. */
export function inUse(piece: Piece, today: CalendarDay): boolean {
  return piece.retired === null || piece.retired > today;
}

/**
 * Days a piece was worn in its share: each calendar day from first wear counts 1 / n, n the pieces of the same cover in turn that day.
 *
 * Shape: a piece, every piece of the patient, a day; days, or no answer before first wear. A spare does not wear and does not share.
 * Source: two of an order alternate (common practice), so wear days ≈ calendar days / pieces in turn.
 * Example: alone for 30 days, then one of two for 60: 60 wear days in 90.
 */
export function wearDays(piece: Piece, all: readonly Piece[], today: CalendarDay): number | NoAnswer {
  const days = daysWorn(piece, today);
  if (isNoAnswer(days)) return days;
  const alike = all.filter((one) => coverKey(one) === coverKey(piece));
  let worn = 0;
  for (let after = 0; after < days; after++) {
    const day = addDays(piece.firstWorn as CalendarDay, after);
    if (!inTurn(piece, day)) continue;
    worn += 1 / alike.filter((one) => inTurn(one, day)).length;
  }
  return worn;
}

function inTurn(piece: Piece, day: CalendarDay): boolean {
  return piece.firstWorn !== null && piece.firstWorn <= day && inUse(piece, day) && keptAs(piece, day) === 'rotation';
}

/** Which pieces stand in for each other: same limb, same ends; made to named measures alone: same place, same form. */
export function coverKey({ limb, side, covers, garment }: Pick<Piece, 'limb' | 'side' | 'covers' | 'garment'>): string {
  if (covers === 'measures') return [side, limb, covers, garment?.form ?? ''].join(' ');
  const ends = [covers.from, covers.to].map((end) => (typeof end === 'string' ? end : String(end.nm)));
  return [side, limb, ...ends.sort()].join(' ');
}
