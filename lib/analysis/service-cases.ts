import { phaseOn } from '../course/phases';
import type { LimbKind, Side } from '../ladder/limb';
import { type LimbSide, limbOf, type PatientRecord, type Piece } from '../record/patient-record';
import { type CalendarDay, dayFromNumber, dayNumber } from '../units/calendar-day';
import type { PatientAnalysis } from './analyse-patient';
import { excessOverTime } from './excess-over-time';

type OfLimb = { readonly limb: LimbKind; readonly side: Side; readonly day: CalendarDay };

/** Days of one limb in one ended month on which it was in care with garments (`whole`), and on how many of them no piece worked (`some`). */
export type WithoutCase = OfLimb & { readonly kind: 'without'; readonly whole: number; readonly some: number };

/**
 * What a phase did to the excess of a limb: tenths of a percentage point of excess that went from its first to its last visit with one (`lost`, below 0 where it grew), and
 * whether what the phase before had reached was kept (null for the first phase).
 */
export type ExcessCase = OfLimb & { readonly kind: 'excess'; readonly phase: string; readonly lost: number; readonly kept: boolean | null };

export type ServiceCase = WithoutCase | ExcessCase;

/**
 * What a patient's record adds to the figures of the service that the database alone cannot count: days without a working piece, and excess by phase.
 *
 * Shape: an analysis of today. Source: definitions of the house; the parts say theirs.
 */
export function serviceCases(analysis: PatientAnalysis): readonly ServiceCase[] {
  return [...daysWithout(analysis.record, analysis.today), ...excessByPhase(analysis)];
}

/** Phases in which nobody is expected to wear anything. */
const RESTS: readonly string[] = ['on-hold', 'ended'];

/**
 * Days without a working piece, a limb and ended month at a time; `day` is the first of the month.
 *
 * A limb counts from the day its first piece was worn, on days that no phase on hold or ended holds. A piece works from its first wear up to the end of its expected life, unless it went out of use
 * before; one sent back does not, and one made to named measures alone is of no limb. Shape: a record and a day; the month of that day has not ended and is left out. Source: definition of the house (common practice of two in turn).
 * Example: one piece worn from 1 March with a life of 90 days, the next from 10 June: 30 May to 9 June, 2 days of May and 9 of June.
 */
export function daysWithout(record: PatientRecord, today: CalendarDay): readonly WithoutCase[] {
  const end = dayNumber(`${today.slice(0, 7)}-01` as CalendarDay);
  const limbs = new Map<string, LimbSide & { readonly pieces: Piece[] }>();
  for (const piece of record.pieces) {
    const on = limbOf(piece);
    if (piece.firstWorn === null || piece.covers === 'measures' || !on) continue;
    const key = `${piece.limb} ${piece.side}`;
    limbs.set(key, { ...on, pieces: [...(limbs.get(key)?.pieces ?? []), piece] });
  }
  return [...limbs.values()].flatMap(({ limb, side, pieces }) => {
    const spans = pieces.map(worksFrom);
    const months = new Map<string, { whole: number; some: number }>();
    for (let number = Math.min(...spans.map(({ from }) => from)); number < end; number++) {
      const day = dayFromNumber(number);
      if (RESTS.includes(phaseOn(record.phases ?? [], day)?.kind ?? '')) continue;
      const month = months.get(day.slice(0, 7)) ?? { whole: 0, some: 0 };
      month.whole += 1;
      if (!spans.some(({ from, before }) => number >= from && number < before)) month.some += 1;
      months.set(day.slice(0, 7), month);
    }
    return [...months].map(([month, days]): WithoutCase => ({ kind: 'without', limb, side, day: `${month}-01` as CalendarDay, ...days }));
  });
}

function worksFrom(piece: Piece): { readonly from: number; readonly before: number } {
  const from = dayNumber(piece.firstWorn as CalendarDay);
  const sentBack = piece.fit && piece.fit.outcome !== 'keep' && !piece.delivered ? dayNumber(piece.fit.day) : Number.POSITIVE_INFINITY;
  const retired = piece.retired === null ? Number.POSITIVE_INFINITY : dayNumber(piece.retired);
  return { from, before: Math.min(from + piece.lifeDays, retired, sentBack) };
}

/**
 * Excess of each affected limb by phase: what went from the first visit of the phase that has one to its last, and whether the phase before was kept.
 *
 * Kept: the last excess of the phase is not above that of the phase before by more than √(e₁² + e₂²), the 95 % errors of both. The excess is that of `limbExcess`, a share of the
 * other limb. Shape: an analysis; a phase with fewer than two visits that have an excess is left out, as is one without a kind. Source: definition of the house; engine section 3.
 * Example: 21 % at the first visit of a reduction, 14.5 % at its last: 65 tenths of a percentage point.
 */
function excessByPhase(analysis: PatientAnalysis): readonly ExcessCase[] {
  return analysis.limbs.flatMap((of) => {
    const points = excessOverTime(analysis, of)?.points ?? [];
    const { limb, side } = of.series;
    const phases = [...new Set(of.visits.map(({ inPhase }) => inPhase))];
    const cases: ExcessCase[] = [];
    let before: (typeof points)[number] | undefined;
    for (const { phase, visits } of phases) {
      const days = new Set(visits.map(({ visit }) => visit.day));
      const own = points.filter(({ day }) => days.has(day));
      const [first, last] = [own[0], own.at(-1)];
      if (!first || !last || !phase) continue;
      if (own.length > 1) {
        const kept = before ? last.share - before.share <= Math.hypot(last.error, before.error) : null;
        cases.push({
          kind: 'excess',
          limb,
          side,
          day: last.day,
          phase: phase.kind,
          lost: Math.round(1000 * (first.share - last.share)),
          kept,
        });
      }
      before = last;
    }
    return cases;
  });
}
