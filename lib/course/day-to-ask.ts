import type { Policy } from '../limits/policy';
import { addDays, type CalendarDay } from '../units/calendar-day';
import { deathIn, type Phase, phaseOn } from './phases';

/** A phase at rest, on hold or ended, and the day on which it is asked about. */
export type DayToAsk = { readonly phase: Phase; readonly day: CalendarDay };

/** True where nothing is due on a day but to ask again: on hold, or the course ended. After a death nothing is due at all. */
export function isAtRest(phases: readonly Phase[], day: CalendarDay): boolean {
  const now = phaseOn(phases, day);
  return deathIn(phases) !== undefined || now?.kind === 'on-hold' || now?.kind === 'ended';
}

/**
 * The day to ask again of the phase that a person is in: the one that was set; of a hold without one its last day, else `holdAskDays` after it
 * began. Undefined where no such phase holds the day, after an end without a day, and after a death.
 *
 * Example: on hold since 1 Oct 2026, no day set: 31 Dec 2026.
 */
export function dayToAsk(phases: readonly Phase[], policy: Policy, today: CalendarDay): DayToAsk | undefined {
  const phase = isAtRest(phases, today) && !deathIn(phases) ? phaseOn(phases, today) : null;
  if (!phase) return undefined;
  const day = phase.askOn ?? (phase.kind === 'on-hold' ? (phase.until ?? addDays(phase.from, policy.holdAskDays)) : undefined);
  return day && { phase, day };
}
