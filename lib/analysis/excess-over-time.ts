import type { Policy } from '../limits/policy';
import { isNoAnswer } from '../outcome';
import type { CalendarDay } from '../units/calendar-day';
import type { AnalysedLimb, PatientAnalysis } from './analyse-patient';
import { limbExcess } from './limb-excess';

/** The excess of a limb at one visit: share of the other limb and ml, each with half of its 95 % range. */
export type DatedExcess = {
  readonly day: CalendarDay;
  readonly share: number;
  readonly error: number;
  readonly ml: number;
  readonly mlError: number;
};

/** The excess of an affected limb at every visit at which it is defined (`limbExcess`), and how many visits have none. */
export type ExcessOverTime = { readonly points: readonly DatedExcess[]; readonly without: number };

/**
 * Excess volume of an affected limb from the first visit on, each over the heights that both limbs tape at that visit.
 *
 * Shape: the analysis and a limb; undefined where the limb is not affected or no visit has an excess: both affected, the other never taped.
 * Of two visits of one day the later one counts.
 */
export function excessOverTime(analysis: PatientAnalysis, limb: AnalysedLimb): ExcessOverTime | undefined {
  if (!limb.affected) return undefined;
  const found = new Map<CalendarDay, DatedExcess>();
  let without = 0;
  for (const { visit } of limb.series.visits) {
    const excess = limbExcess(analysis, limb.series, visit);
    if (isNoAnswer(excess)) without += 1;
    else {
      const { share, error, differenceMl, differenceErrorMl } = excess;
      found.set(visit.day, { day: visit.day, share, error, ml: differenceMl, mlError: differenceErrorMl });
    }
  }
  return found.size === 0 ? undefined : { points: [...found.values()], without };
}

/** A band of excess by published consensus, in % of the other limb; the last has no upper end. A size, never a diagnosis. */
export type ExcessBand = { readonly name: string; readonly fromPct: number; readonly toPct: number | null };

/** The bands at the clinic's figures. Source: `excessMinimalPct` and those after it. */
export function excessBands({ excessMinimalPct, excessModeratePct, excessSeverePct }: Policy): readonly ExcessBand[] {
  return [
    { name: 'minimal', fromPct: excessMinimalPct, toPct: excessModeratePct },
    { name: 'moderate', fromPct: excessModeratePct, toPct: excessSeverePct },
    { name: 'severe', fromPct: excessSeverePct, toPct: null },
  ];
}
