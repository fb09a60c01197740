import type { CalendarDay } from '../units/calendar-day';
import type { Visit } from './patient-record';

/** What a piece or an order says of the ladder it is made to. */
export type CutPointer = { readonly cutFrom: CalendarDay; readonly cutFromVisitId?: string | null };

/**
 * The visit whose figures a piece or an order is made to: the visit it points at, else the first of that day.
 *
 * Shape: things with a visit, in order of time. Example: the day of a visit is corrected; its order still finds it.
 */
export function visitCutFrom<T extends { readonly visit: Visit }>(visits: readonly T[], cut: CutPointer): T | undefined {
  const pointed = cut.cutFromVisitId ? visits.find(({ visit }) => visit.visitId === cut.cutFromVisitId) : undefined;
  return pointed ?? visits.find(({ visit }) => visit.day === cut.cutFrom);
}
