import type { LimbOnSheet } from '../doubts/limb-on-sheet';
import { sheetDoubts } from '../doubts/sheet-doubts';
import type { Doubt } from '../ladder/doubt';
import { LIMBS, type LimbKind, type Side } from '../ladder/limb';
import type { Policy } from '../limits/policy';
import { type TapeSds, tapeSds } from '../limits/tape-sds';
import { isAffected, type PatientRecord, type Visit } from '../record/patient-record';
import { lastLadder } from '../trend/last-ladder';
import type { LimbSeries, SeriesVisit } from '../trend/series-visit';
import { dayNumber } from '../units/calendar-day';

/** A question about one ladder of a visit. */
export type LadderQuestion = { readonly visit: Visit; readonly limb: LimbKind; readonly side: Side; readonly doubt: Doubt };

/**
 * Every question that the sheet asks while the ladders of a record are typed, each visit against those before it.
 *
 * Shape: a record, its series, the policy; questions limb by limb in order of time. Figures stay as they are.
 */
export function recordQuestions(record: PatientRecord, series: readonly LimbSeries[], policy: Policy): readonly LadderQuestion[] {
  return (Object.keys(LIMBS) as LimbKind[]).flatMap((limb) => {
    const sides = series.filter((one) => one.limb === limb);
    const visits = [...new Set(sides.flatMap((one) => one.visits.map(({ visit }) => visit)))].sort((one, other) =>
      `${one.day} ${one.time}`.localeCompare(`${other.day} ${other.time}`),
    );
    return visits.flatMap((visit) => {
      const measured = sides.flatMap(({ side, visits: all }) => {
        const index = all.findIndex((one) => one.visit === visit);
        const now = all[index];
        return now ? [{ now, limb: onSheet(now, all.slice(0, index), isAffected(record, limb, side), tapeSds(policy)) }] : [];
      });
      const body = measured[0]?.now.body;
      if (!body) return [];
      const day = { day: dayNumber(visit.day), body, tape: tapeSds(policy) };
      return sheetDoubts(
        measured.map((one) => one.limb),
        day,
      ).map(({ side, doubt }) => ({ visit, limb, side, doubt }));
    });
  });
}

function onSheet({ ladder }: SeriesVisit, before: readonly SeriesVisit[], affected: boolean, tape: TapeSds): LimbOnSheet {
  const rowsMm = ladder.rungs.map((rung) => rung.distance.nm / 1e6);
  return { ladder, rowsMm, affected, last: lastLadder(before, affected, tape) };
}
