import type { TriedWay, WayId } from '@/lib/analysis/what-if';
import { isNoAnswer } from '@/lib/outcome';
import { showDay } from '@/lib/units/calendar-day';

/** What each way of going on is called, in full and beside a line. */
export const WAY_WORDS: Readonly<Record<WayId, { readonly full: string; readonly short: string }>> = {
  now: { full: 'Order now', short: 'now' },
  'let-out': { full: 'Let out now, order at the next visit', short: 'let out' },
  'next-visit': { full: 'Order at the next visit', short: 'next visit' },
  wait: { full: 'Wait for the visit after it', short: 'wait' },
};

/** A chance in per cent: `< 1`, `12`, `> 99`; 0 and 100 only where it is so. */
export function chanceInWords(chance: number): string {
  if (chance === 0 || chance === 1) return String(chance * 100);
  if (chance < 0.01) return '< 1';
  return chance > 0.99 ? '> 99' : (chance * 100).toFixed(0);
}

/** Whole days, `< 1` for part of one. */
export function daysInWords(days: number): string {
  return days > 0 && days < 1 ? '< 1' : days.toFixed(0);
}

/** `ordered 6 Jan 2027, here about 20 Jan 2027` */
export function whenOrdered({ orderDay, ahead }: TriedWay): string {
  return `ordered ${showDay(orderDay)}${isNoAnswer(ahead) ? '' : `, here about ${showDay(ahead.arrives)}`}`;
}
