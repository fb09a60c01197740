import type { PatientAnalysis } from '../analysis/analyse-patient';
import { type EndedAs, type Phase, type PhaseKind, phaseOn } from '../course/phases';
import type { PhaseVisits } from '../trend/phase-visits';
import type { SeriesVisit } from '../trend/series-visit';
import { type CalendarDay, daysBetween, showDay } from '../units/calendar-day';
import { capitalized } from '../units/capitalized';

/** The kinds of phase as screens and papers say them. */
export const PHASE_WORDS: Readonly<Record<PhaseKind, string>> = {
  'getting-ready': 'getting ready',
  reduction: 'reduction',
  'interim-garment': 'interim garment',
  garments: 'garments',
  'stepping-down': 'stepping down',
  'on-hold': 'on hold',
  ended: 'ended',
};

/** How a course ended, in words. */
export const ENDED_WORDS: Readonly<Record<EndedAs, string>> = {
  discharged: 'discharged',
  transferred: 'transferred',
  died: 'died',
  'lost-to-follow-up': 'lost to follow-up',
};

/** A phase as it is shown: its kind in words, its days, the visit its verdicts compare with, and whether it holds today. */
export type ShownPhase = {
  readonly number: number;
  readonly phase: Phase;
  readonly words: string;
  /** Its last day where one is known: written, or the day on which the next begins. */
  readonly end: CalendarDay | null;
  readonly baseline: CalendarDay | null;
  readonly baselineChosen: boolean;
  readonly current: boolean;
};

/**
 * The phases of a course in order, each with its baseline: the one chosen, else the first good ladder of the first affected limb in it.
 *
 * Shape: an analysis; none without phases.
 */
export function shownPhases({ record, limbs, today }: Pick<PatientAnalysis, 'record' | 'limbs' | 'today'>): readonly ShownPhase[] {
  const phases = record.phases ?? [];
  const now = phaseOn(phases, today);
  const ordered = [...limbs].sort((one, other) => Number(other.affected) - Number(one.affected));
  return phases.map((phase, index) => {
    const found = ordered.flatMap(({ visits }) => visits.find(({ inPhase }) => inPhase.phase === phase) ?? [])[0];
    return {
      number: index + 1,
      phase,
      words: phase.kind === 'ended' && phase.endedAs ? ENDED_WORDS[phase.endedAs] : PHASE_WORDS[phase.kind],
      end: phase.kind === 'ended' ? phase.from : (phase.until ?? phases[index + 1]?.from ?? null),
      baseline: phase.baselineDay ?? found?.inPhase.baseline.visit.day ?? null,
      baselineChosen: phase.baselineDay !== null,
      current: phase === now,
    };
  });
}

/**
 * Where a person stands in the course, in one sentence; undefined where no phase holds the day.
 *
 * Example: `Reduction since 2 Mar 2026, 4 weeks; verdicts compare with 2 Mar 2026.`
 */
export function courseSentence(analysis: Pick<PatientAnalysis, 'record' | 'limbs' | 'today'>): string | undefined {
  const now = shownPhases(analysis).find(({ current }) => current);
  if (!now) return undefined;
  const { phase, baseline, baselineChosen, words } = now;
  const first = capitalized(words);
  if (phase.kind === 'ended')
    return `${first} on ${showDay(phase.from)}.${phase.askOn ? ` To be asked again on ${showDay(phase.askOn)}.` : ''}`;
  const against = baseline
    ? `; verdicts compare with ${showDay(baseline)}${baselineChosen ? ', chosen' : ''}`
    : '; nothing measured in it yet';
  return `${first} since ${showDay(phase.from)}, ${daysInWords(phase.from, analysis.today)}${against}.`;
}

function daysInWords(from: CalendarDay, today: CalendarDay): string {
  const days = daysBetween(from, today);
  if (days < 14) return days === 1 ? '1 day' : `${days} days`;
  return `${Math.floor(days / 7)} weeks`;
}

/**
 * What a verdict against a baseline compares with, in words: the first visit of all, or the baseline of a phase.
 *
 * Shape: the visits of the phase with their baseline, and the first visit of the limb. Example: `baseline of garments`.
 */
export function baselineInWords({ phase, baseline }: PhaseVisits, first: SeriesVisit | undefined): string {
  if (phase) return `baseline of ${PHASE_WORDS[phase.kind]}`;
  return baseline === first ? 'first visit' : 'first visit since the last phase';
}
