import type { ChangeRow } from '@/app/_chart/change-ruler';
import { type AnalysedLimb, type AnalysedVisit, judged, type PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { isNoAnswer } from '@/lib/outcome';
import { isCutFromLadderOf } from '@/lib/record/patient-record';
import { REACH_95 } from '@/lib/statistics/reach-95';
import { baselineInWords } from '@/lib/summary/phase-words';
import type { JudgedChange } from '@/lib/trend/judged-change';
import { ratioSd } from '@/lib/trend/measured-change';
import type { LimbSeries } from '@/lib/trend/series-visit';
import { type CalendarDay, showDay } from '@/lib/units/calendar-day';

/** Rows of the change ruler for one visit: since the visit before, the ladder a piece in use was cut from, the baseline of the phase, the first visit. */
export function changeRows(limb: AnalysedLimb, visit: AnalysedVisit, analysis: PatientAnalysis): ChangeRow[] {
  const cutFrom = analysis.pieces.filter((one) => one.inUse && isCutFromLadderOf(one.piece, limb.series.limb, limb.series.side)).at(-1);
  const rows: { change: JudgedChange; note: string | null; day: CalendarDay }[] = [];
  const add = (change: JudgedChange | null | { noAnswer: string }, note: string | null): void => {
    if (!change || isNoAnswer(change)) return;
    const day = change.change.earlier.visit.day;
    const same = rows.find((row) => row.day === day);
    if (same) same.note ??= note;
    else rows.push({ change, note, day });
  };
  const cutChange = cutFrom && !isNoAnswer(cutFrom.fit) ? cutFrom.fit.cut.visit.visit.day : undefined;
  add(
    visit.sinceLast,
    visit.sinceLast && !isNoAnswer(visit.sinceLast) && visit.sinceLast.change.earlier.visit.day === cutChange ? 'piece made to this' : null,
  );
  const cutVisit = limb.series.visits.find((one) => one.visit.day === cutChange && one.placed.day < visit.at.placed.day);
  if (cutVisit) add(judged(cutVisit, visit.at, limb.course, witnessOf(limb, analysis), analysis.policy), 'piece made to this');
  add(visit.sinceBaseline, baselineInWords(visit.inPhase, limb.series.visits[0]));
  add(visit.sinceFirst, 'first visit');
  return rows.sort((one, other) => other.day.localeCompare(one.day)).map(({ change, note, day }) => rowOf(change, note, day));
}

/** The healthy other limb, which bears witness where this one is affected. */
function witnessOf(limb: AnalysedLimb, analysis: PatientAnalysis): LimbSeries | undefined {
  const other = analysis.limbs.find((one) => one.series.limb === limb.series.limb && one.series.side !== limb.series.side);
  return limb.affected && other && !other.affected ? other.series : undefined;
}

function rowOf(judged: JudgedChange, note: string | null, day: CalendarDay): ChangeRow {
  const { change, explained } = judged;
  const { volume } = change.measured;
  const middle = judged.expectedVolumeRatio - 1;
  const modelSd = explained ? 2 * (change.body.modelSd ?? 0.02) : null;
  return {
    since: showDay(day),
    note,
    change: volume.ratio - 1,
    reach: REACH_95 * volume.ratio * ratioSd(volume),
    smallestReal: judged.smallestRealChange,
    expected: modelSd === null ? null : { low: middle - REACH_95 * modelSd, middle, high: middle + REACH_95 * modelSd },
  };
}
