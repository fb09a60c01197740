import type { Visit } from '../record/patient-record';
import { type CalendarDay, daysBetween } from '../units/calendar-day';
import { kg } from '../units/mass';

/** A body figure beside the day it was taken and how many days that is from the day asked about. */
export type DatedFigure = { readonly value: number; readonly day: CalendarDay; readonly daysAway: number };

/** Height (mm) and weight (kg) that serve for a day; each may be missing. */
export type BodyAt = { readonly heightMm: DatedFigure | undefined; readonly weightKg: DatedFigure | undefined };

/** A figure from further away is not used: 30 days for a child, 60 for an adult. Clinic default. */
export const NEAREST_WITHIN_DAYS = { growing: 30, grown: 60 } as const;

/**
 * Height and weight for a visit's day: from that day, or from the nearest record within 30 days (child) or 60 days (adult).
 *
 * An adult's height does not change and is taken from the nearest visit at any distance.
 * Shape: a patient's visits, a day; mm and kg with their days. Source: engine section 5, clinic default.
 * Example: weighed on 1 May and taped on 20 May: the weight serves, 19 days away.
 */
export function bodyAt(visits: readonly Visit[], day: CalendarDay, growing: boolean): BodyAt {
  const within = growing ? NEAREST_WITHIN_DAYS.growing : NEAREST_WITHIN_DAYS.grown;
  return {
    heightMm: nearest(visits, day, growing ? within : Number.POSITIVE_INFINITY, (visit) =>
      visit.height ? visit.height.nm / 1e6 : undefined,
    ),
    weightKg: nearest(visits, day, within, (visit) => (visit.weight ? kg(visit.weight) : undefined)),
  };
}

function nearest(
  visits: readonly Visit[],
  day: CalendarDay,
  withinDays: number,
  figureOf: (visit: Visit) => number | undefined,
): DatedFigure | undefined {
  for (const visit of visits) {
    const value = visit.day === day ? figureOf(visit) : undefined;
    if (value !== undefined) return { value, day, daysAway: 0 };
  }
  let best: DatedFigure | undefined;
  for (const visit of visits) {
    const value = figureOf(visit);
    if (value === undefined) continue;
    const daysAway = Math.abs(daysBetween(day, visit.day));
    if (daysAway <= withinDays && (best === undefined || daysAway < best.daysAway)) best = { value, day: visit.day, daysAway };
  }
  return best;
}
