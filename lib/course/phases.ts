import { type CalendarDay, showDay } from '../units/calendar-day';

/** The kinds of phase in the order in which a course usually goes through them. */
export const PHASE_KINDS = ['getting-ready', 'reduction', 'interim-garment', 'garments', 'stepping-down', 'on-hold', 'ended'] as const;
export type PhaseKind = (typeof PHASE_KINDS)[number];

/** How a course ended. */
export const ENDED_AS = ['discharged', 'transferred', 'died', 'lost-to-follow-up'] as const;
export type EndedAs = (typeof ENDED_AS)[number];

/**
 * A stretch of the course of care. It lasts from `from` to `until`, both days in it; with `until` null it lasts until the next one begins.
 *
 * Where one ends on the day on which the next begins, that day is the next one's.
 */
export type Phase = {
  readonly kind: PhaseKind;
  readonly from: CalendarDay;
  readonly until: CalendarDay | null;
  /** Day of the visit that verdicts of the phase compare with; null for its first good one. */
  readonly baselineDay: CalendarDay | null;
  /** Of `on-hold` and `ended`: the day to ask again. */
  readonly askOn?: CalendarDay;
  /** Of `ended`: how. */
  readonly endedAs?: EndedAs;
  /** Why, in the clinic's words. */
  readonly note?: string;
};

/** A course of care as a person wrote it last: its phases in order, and which writing it is (0 before the first). */
export type Course = { readonly number: number; readonly phases: readonly Phase[] };

/** What is wrong with one of several phases, at which of its fields. */
export type PhaseFault = { readonly phase: Phase; readonly field: keyof Phase; readonly reason: string };

/** Where a day stands in the course: its phase, or null where none holds it, and a name shared by all days of the same stretch. */
export type Stretch = { readonly phase: Phase | null; readonly name: string };

/**
 * The phase of a day: the last one that has begun, unless it has ended. The course has ended from the day after the one on which `ended`
 * begins: a last visit on that day is still one of the phase before.
 *
 * Days that no phase holds are stretches of their own: before the first, and each gap between two. Without any phase all days are one stretch.
 * Shape: phases in order of `from` (`inOrder`), a day. Cost: one look at each phase.
 */
export function stretchOf(phases: readonly Phase[], day: CalendarDay): Stretch {
  const at = phases.findLastIndex(({ kind, from }) => (kind === 'ended' ? from < day : from <= day));
  const begun = phases[at] ?? null;
  const phase = begun && (begun.until === null || day <= begun.until) ? begun : null;
  return { phase, name: `${at} ${phase ? 'in' : 'after'}` };
}

/** The phase that a person is in on a day, as the course is told: `ended` counts from its own day on. Null where none holds the day. */
export function phaseOn(phases: readonly Phase[], day: CalendarDay): Phase | null {
  const begun = phases.findLast(({ from }) => from <= day);
  return begun && (begun.until === null || day <= begun.until) ? begun : null;
}

/** The end by death, where one is on record. */
export function deathIn(phases: readonly Phase[]): Phase | undefined {
  return phases.find(({ endedAs }) => endedAs === 'died');
}

/** Why nothing may be ordered or handed over on a day: the person died, the course ended or is on hold; undefined where it may. */
export function restsOn(phases: readonly Phase[], day: CalendarDay): string | undefined {
  const death = deathIn(phases);
  if (death) return `Died on ${showDay(death.from)}. Nothing is ordered, sent or handed over.`;
  const now = phaseOn(phases, day);
  if (now?.kind === 'ended') return `The course ended on ${showDay(now.from)}. Begin a phase first.`;
  return now?.kind === 'on-hold' ? `On hold since ${showDay(now.from)}. End the hold or begin a phase first.` : undefined;
}

/** Why nothing can be measured on a day: the course had ended before it; undefined where it had not. */
export function endedBefore(phases: readonly Phase[], day: CalendarDay): string | undefined {
  const { phase } = stretchOf(phases, day);
  if (phase?.kind !== 'ended') return undefined;
  if (phase.endedAs === 'died') return `Died on ${showDay(phase.from)}. If that was noted by mistake, correct the course first.`;
  return `The course ended on ${showDay(phase.from)}. Begin a phase first, or correct the day it ended.`;
}

/** Phases in order of the day on which they begin; the order given where two begin the same day. */
export function inOrder<T extends { readonly from: CalendarDay }>(phases: readonly T[]): readonly T[] {
  return [...phases].sort((one, other) => (one.from < other.from ? -1 : one.from > other.from ? 1 : 0));
}

/**
 * Everything that is wrong with the phases of one person, each once; empty where they can stand.
 *
 * A phase that begins before birth or ends before it begins; two that overlap; the same one twice, with two baselines or with one; a baseline
 * outside its phase, or on a day without a visit; a death that ends, or after which a phase begins; a visit after the course ended. Two that
 * meet in one day do not overlap. Of two that contradict each other the later in the list given is named. Cost: n log n.
 */
export function phaseFaults(phases: readonly Phase[], born: CalendarDay, visitDays: ReadonlySet<CalendarDay>): readonly PhaseFault[] {
  const faults: PhaseFault[] = [];
  for (const phase of phases) {
    const alone = faultAlone(phase, born);
    if (alone) faults.push(alone);
  }
  if (faults.length > 0) return faults;
  const place = new Map(phases.map((phase, at) => [phase, at]));
  const ordered = inOrder(phases);
  ordered.slice(1).forEach((next, index) => {
    const before = ordered[index] as Phase;
    const clash = clashOf(before, next);
    if (clash) faults.push({ phase: (place.get(before) ?? 0) > (place.get(next) ?? 0) ? before : next, ...clash });
  });
  if (faults.length > 0) return faults;
  ordered.forEach((phase, index) => {
    const reason = baselineFault(phase, ordered[index + 1], visitDays);
    if (reason) faults.push({ phase, field: 'baselineDay', reason });
  });
  const after = afterDeath(ordered, (phase) => place.get(phase) ?? 0);
  if (after) faults.push(after);
  return faults.length > 0 ? faults : visitsAfterEnd(ordered, visitDays);
}

/** A phase that begins after a death; of the two the later in the list given is at fault. */
function afterDeath(ordered: readonly Phase[], placeOf: (phase: Phase) => number): PhaseFault | undefined {
  const at = ordered.findIndex(({ endedAs }) => endedAs === 'died');
  const [death, next] = at < 0 ? [] : [ordered[at], ordered[at + 1]];
  if (!death || !next) return undefined;
  const reason =
    placeOf(death) > placeOf(next)
      ? `The phase ${next.kind} begins on ${showDay(next.from)}, after this death.`
      : `Died on ${showDay(death.from)}: no phase begins after it.`;
  return { phase: placeOf(death) > placeOf(next) ? death : next, field: 'from', reason };
}

/** Each phase `ended` on whose later days something was measured, once. */
function visitsAfterEnd(ordered: readonly Phase[], visitDays: ReadonlySet<CalendarDay>): PhaseFault[] {
  const days = [...visitDays].sort();
  let at = 0;
  return ordered.flatMap((phase, index) => {
    if (phase.kind !== 'ended') return [];
    while (at < days.length && (days[at] as CalendarDay) <= phase.from) at++;
    const day = days[at];
    const next = ordered[index + 1];
    if (!day || (phase.until !== null && day > phase.until) || (next && day >= next.from)) return [];
    return [
      {
        phase,
        field: 'from' as const,
        reason: `Measured on ${showDay(day)}, after the course ended on ${showDay(phase.from)}. Let it end later, or begin a phase by that day.`,
      },
    ];
  });
}

function faultAlone(phase: Phase, born: CalendarDay): PhaseFault | undefined {
  const { from, until } = phase;
  if (from < born) return { phase, field: 'from', reason: `It begins on ${showDay(from)}, before birth on ${showDay(born)}.` };
  if (until !== null && until < from)
    return { phase, field: 'until', reason: `It ends on ${showDay(until)}, before it begins on ${showDay(from)}.` };
  return endFault(phase);
}

function endFault(phase: Phase): PhaseFault | undefined {
  const { kind, from, until, askOn, endedAs } = phase;
  if (endedAs && kind !== 'ended') return { phase, field: 'endedAs', reason: 'Only a course that ended has a way in which it ended.' };
  if (endedAs === 'died' && until !== null) return { phase, field: 'until', reason: 'A death has no end.' };
  if (!askOn) return undefined;
  if (endedAs === 'died') return { phase, field: 'askOn', reason: 'Nothing is asked after a death.' };
  if (kind !== 'on-hold' && kind !== 'ended')
    return { phase, field: 'askOn', reason: 'Only a phase on hold or an ended course has a day to ask again.' };
  return askOn <= from ? { phase, field: 'askOn', reason: `The day to ask again is not after ${showDay(from)}.` } : undefined;
}

function clashOf(before: Phase, next: Phase): Omit<PhaseFault, 'phase'> | undefined {
  if (before.from === next.from && before.kind === next.kind) {
    if (before.baselineDay !== next.baselineDay && before.baselineDay !== null && next.baselineDay !== null)
      return {
        field: 'baselineDay',
        reason: `A phase has one baseline; ${showDay(before.baselineDay)} and ${showDay(next.baselineDay)} are given for this one.`,
      };
    return { field: 'from', reason: `The phase ${next.kind} from ${showDay(next.from)} stands twice.` };
  }
  if (before.from < next.from && (before.until === null || next.from >= before.until)) return undefined;
  const ends = before.until === null ? '' : ` to ${showDay(before.until)}`;
  return {
    field: 'from',
    reason: `Two phases overlap: ${before.kind} from ${showDay(before.from)}${ends}, and ${next.kind} from ${showDay(next.from)}.`,
  };
}

function baselineFault({ kind, from, until, baselineDay }: Phase, next: Phase | undefined, visitDays: ReadonlySet<CalendarDay>) {
  if (baselineDay === null) return undefined;
  const day = showDay(baselineDay);
  if (baselineDay < from || (until !== null && baselineDay > until))
    return `The baseline ${day} lies outside the phase ${kind}, ${showDay(from)} to ${until === null ? 'its end' : showDay(until)}.`;
  if (next && baselineDay >= next.from) return `The baseline ${day} lies in the next phase, ${next.kind} from ${showDay(next.from)}.`;
  if (!visitDays.has(baselineDay)) return `Nothing was measured on the baseline ${day}.`;
  return undefined;
}
