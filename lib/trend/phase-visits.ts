import { type Phase, stretchOf } from '../course/phases';
import type { CalendarDay } from '../units/calendar-day';
import type { SeriesVisit } from './series-visit';

/** The visits of one limb that belong to one phase, and the one among them that verdicts of the phase compare with. */
export type PhaseVisits = { readonly phase: Phase | null; readonly visits: readonly SeriesVisit[]; readonly baseline: SeriesVisit };

/**
 * For each visit of a limb, the visits of its phase and their baseline, in order.
 *
 * The baseline is the visit of the day that was chosen, where the limb was taped then; else the first of the phase with two girths whose
 * sides are not in doubt; else its first. Without phases all visits are one, and the first of all is the baseline.
 * Shape: the visits of a series and the phases of the person, in order. Cost: visits times phases.
 */
export function phaseVisits(visits: readonly SeriesVisit[], phases: readonly Phase[]): readonly PhaseVisits[] {
  const groups = new Map<string, { readonly phase: Phase | null; readonly visits: SeriesVisit[] }>();
  const names = visits.map((one) => {
    const { phase, name } = stretchOf(phases, one.visit.day);
    const group = groups.get(name) ?? { phase, visits: [] };
    groups.set(name, group);
    group.visits.push(one);
    return name;
  });
  const whole = new Map(
    [...groups].map(([name, { phase, visits: own }]) => {
      const first = own[0] as SeriesVisit;
      return [name, { phase, visits: own, baseline: phases.length === 0 ? first : (baselineOf(own, phase?.baselineDay) ?? first) }];
    }),
  );
  return names.map((name) => whole.get(name) as PhaseVisits);
}

function baselineOf(visits: readonly SeriesVisit[], chosen: CalendarDay | null | undefined): SeriesVisit | undefined {
  const good = visits.find(({ placed, sidesInDoubt }) => placed.line.placesMm.length > 1 && !sidesInDoubt);
  return visits.find(({ visit }) => visit.day === chosen) ?? good;
}
