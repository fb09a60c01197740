import type { ComputedDate, MovedDate, ScheduledDate } from './scheduled-date';

/**
 * Computed dates with those that a person moved. A move holds while the day it was made from is still the computed one; when new data
 * changes that day, the move falls away and is named.
 *
 * Shape: dates, and moves oldest first (the latest of a key counts); dates by the day that counts, then by key.
 * Example: order by 11 Dec, moved to 18 Dec; a new ladder makes it 4 Dec: 4 Dec counts.
 */
export function withMoved(dates: readonly ComputedDate[], moves: readonly MovedDate[]): ScheduledDate[] {
  const latest = new Map(moves.map((move) => [move.key, move]));
  return dates
    .map((date): ScheduledDate => {
      const move = latest.get(date.key);
      if (!move) return { ...date, day: date.computed, moved: null, fellAway: null };
      if (move.computed !== date.computed) return { ...date, day: date.computed, moved: null, fellAway: move };
      const back = move.day === date.computed;
      return { ...date, day: move.day, moved: back ? null : move, fellAway: null };
    })
    .sort((one, other) => one.day.localeCompare(other.day) || one.key.localeCompare(other.key));
}
