import type { Piece } from '../record/patient-record';
import { addDays, type CalendarDay } from '../units/calendar-day';

/** Hours of wear a day from one day of the wear-in on: its first and last day counted from first wear (1), the last null where it stays so. */
export type BuildUpStep = {
  readonly firstDay: number;
  readonly lastDay: number | null;
  readonly from: CalendarDay;
  readonly to: CalendarDay | null;
  readonly hours: number;
};

/**
 * The wear-in of a piece as steps: hours rise evenly from the first to the full ones.
 *
 * Formula: of k steps over D days step i (from 0) lasts from day ⌊iD/k⌋ + 1 to ⌊(i + 1)D/k⌋ and has first + i (full − first)/k hours, to the
 * whole hour; from day D + 1 on the full ones. k is at most `most`, D, and full − first, so that no two steps are alike.
 * Shape: a piece, the most steps; hours a day, days of the calendar. None without a wear-in, before first wear, or where the plan falls.
 * Source: first, full hours and days are the clinic’s plan of the piece; even steps are a clinic default.
 * Example: 2 to 23 h over 14 days in 4 steps: days 1–3 2 h, 4–7 7 h, 8–10 13 h, 11–14 18 h, from day 15 23 h.
 */
export function buildUp({ wearIn, firstWorn }: Pick<Piece, 'wearIn' | 'firstWorn'>, most: number): readonly BuildUpStep[] {
  if (!wearIn || !firstWorn || wearIn.fullHours < wearIn.firstHours || wearIn.days < 1) return [];
  const { firstHours, fullHours, days } = wearIn;
  const rise = fullHours - firstHours;
  const steps = Math.min(Math.max(1, Math.floor(most)), days, Math.floor(rise));
  const rising = Array.from({ length: steps }, (_, at): BuildUpStep => {
    const [firstDay, lastDay] = [Math.floor((at * days) / steps) + 1, Math.floor(((at + 1) * days) / steps)];
    const hours = Math.round(firstHours + (at * rise) / steps);
    return { firstDay, lastDay, from: addDays(firstWorn, firstDay - 1), to: addDays(firstWorn, lastDay - 1), hours };
  });
  const full = steps === 0 ? 1 : days + 1;
  return [...rising, { firstDay: full, lastDay: null, from: addDays(firstWorn, full - 1), to: null, hours: fullHours }];
}
