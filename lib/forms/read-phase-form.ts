import { ENDED_AS, PHASE_KINDS, type Phase, type PhaseFault, phaseFaults } from '../course/phases';
import { type CalendarDay, readDay, showDay } from '../units/calendar-day';

/** The boxes of the form of a phase. */
export const PHASE_BOXES = ['kind', 'from', 'until', 'baselineDay', 'askOn', 'endedAs', 'note', 'reason'] as const;
export type PhaseBox = (typeof PHASE_BOXES)[number];
export type TypedPhase = Readonly<Partial<Record<PhaseBox, string>>>;

/** Longest note and reason. */
export const LONGEST_NOTE = 300;

/** A phase as typed, or a sentence beside each box that stops it. */
export type PhaseRead =
  | { readonly kind: 'read'; readonly phase: Phase }
  | { readonly kind: 'refused'; readonly errors: Readonly<Partial<Record<PhaseBox, string>>> };

/**
 * What the form of a phase says. Boxes that do not belong to its kind are passed over.
 *
 * Refuses a kind that is none, a day that is none, a phase that has not begun, a course that ended without saying how, a hold or an end (but
 * a death) without why, a note that is too long. What the phase does to the others is asked by `faultsByBox`.
 */
export function readPhaseForm(typed: TypedPhase, today: CalendarDay): PhaseRead {
  const errors: Partial<Record<PhaseBox, string>> = {};
  const text = (box: PhaseBox): string => (typed[box] ?? '').trim();
  const optionalDay = (box: PhaseBox): CalendarDay | null => {
    if (text(box) === '') return null;
    const day = readDay(text(box));
    if (day.kind === 'read') return day.value;
    errors[box] = day.reason;
    return null;
  };
  const kind = PHASE_KINDS.find((one) => one === text('kind'));
  if (!kind) errors.kind = 'Choose a kind.';
  const from = optionalDay('from');
  if (text('from') === '') errors.from = 'Choose the day on which it begins.';
  else if (from && from > today) errors.from = `${showDay(from)} has not come yet. A phase is noted once it has begun.`;
  const rests = kind === 'on-hold' || kind === 'ended';
  const until = kind === 'ended' ? null : optionalDay('until');
  const baselineDay = kind === 'ended' ? null : optionalDay('baselineDay');
  const endedAs = kind === 'ended' ? ENDED_AS.find((one) => one === text('endedAs')) : undefined;
  if (kind === 'ended' && !endedAs) errors.endedAs = 'Choose how it ended.';
  const askOn = rests && endedAs !== 'died' ? optionalDay('askOn') : null;
  const note = text('note');
  if (note.length > LONGEST_NOTE) errors.note = `Too long: ${LONGEST_NOTE} characters at most.`;
  if (rests && endedAs !== 'died' && note === '') errors.note = 'Say why in a few words.';
  if (!kind || !from || Object.keys(errors).length > 0) return { kind: 'refused', errors };
  return {
    kind: 'read',
    phase: { kind, from, until, baselineDay, ...(askOn && { askOn }), ...(endedAs && { endedAs }), ...(note && { note }) },
  };
}

/**
 * What stops a course as it would stand, at the boxes of the phase that was typed; `form` names another phase that it contradicts.
 *
 * Shape: all phases, the one of the form among them, the day of birth and the days of visits.
 */
export function faultsByBox(
  phases: readonly Phase[],
  typed: Phase | undefined,
  born: CalendarDay,
  visitDays: ReadonlySet<CalendarDay>,
): Readonly<Partial<Record<PhaseBox | 'form', string>>> {
  // The typed phase stands last, so that of two that contradict each other it is the one that is named.
  const ordered = typed ? [...phases.filter((one) => one !== typed), typed] : phases;
  return boxesOf(phaseFaults(ordered, born, visitDays), typed);
}

/** Faults at the boxes of one phase; those of others in one sentence. */
export function boxesOf(faults: readonly PhaseFault[], typed: Phase | undefined): Readonly<Partial<Record<PhaseBox | 'form', string>>> {
  const errors: Partial<Record<PhaseBox | 'form', string>> = {};
  for (const { phase, field, reason } of faults) {
    if (phase === typed) errors[field] ??= reason;
    else errors.form ??= `${reason} (${phase.kind}, ${showDay(phase.from)})`;
  }
  return errors;
}
