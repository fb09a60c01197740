import { type CalendarDay, readDay } from '../../units/calendar-day';
import { STEPS, type StepKind, VISITS } from './family-words';

/** Rows for what happens next: the next visit, and two more. */
export const STEP_ROWS = 3;

/** One thing that happens next. */
export type FamilyStep = { readonly day: CalendarDay | null; readonly kind: StepKind; readonly words: string };

/** A new garment is ordered, then it arrives, then it is tried on. */
const GARMENT_ORDER: readonly { readonly kind: StepKind; readonly early: string }[] = [
  { kind: 'order', early: '' },
  { kind: 'delivery', early: 'The new garment cannot arrive before it is ordered.' },
  { kind: 'try-on', early: 'The new garment cannot be tried on before it is ordered and here.' },
];

/**
 * What happens next, in order of days, as typed in `step0Kind`, `step0Day`, `step0Words` and so on; what is refused goes to `refuse`.
 *
 * Row 0 is the next visit and takes nothing else, so that its planned day never stands at another step. A row without a kind says nothing.
 * Shape: the typed text of a box, the day of the visit, what to do with a refusal.
 */
export function readSteps(
  text: (box: string) => string,
  visitDay: CalendarDay,
  refuse: (box: string, reason: string) => unknown,
): readonly FamilyStep[] {
  const rows = Array.from({ length: STEP_ROWS }).flatMap((_, row) => {
    const kind = STEPS.find((one) => one === text(`step${row}Kind`));
    if (!kind) return [];
    if (row === 0 && !VISITS.some((one) => one === kind)) refuse('step0Kind', 'Choose what the visit is for, or none planned.');
    const day = readDay(text(`step${row}Day`));
    if (day.kind !== 'read') refuse(`step${row}Day`, 'Type the day.');
    else if (day.value < visitDay) refuse(`step${row}Day`, 'This is before the visit.');
    const words = text(`step${row}Words`);
    if (kind === 'other' && words === '') refuse(`step${row}Words`, 'Say it in your own words.');
    return day.kind === 'read' ? [{ row, day: day.value, kind, words }] : [];
  });
  for (const [index, { kind, early }] of GARMENT_ORDER.entries()) {
    const before = GARMENT_ORDER.slice(0, index).map((one) => one.kind);
    for (const step of rows.filter((one) => one.kind === kind))
      if (rows.some((other) => before.includes(other.kind) && other.day > step.day)) refuse(`step${step.row}Day`, early);
  }
  return rows.map(({ day, kind, words }) => ({ day, kind, words })).sort((one, other) => one.day.localeCompare(other.day));
}
