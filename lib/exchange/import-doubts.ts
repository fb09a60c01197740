import { type LimbOnSheet, sheetDoubts } from '../growth/sheet-doubts';
import { LIMBS, type LimbKind, limbInWords } from '../ladder/limb';
import { type PatientFile, recordOfFile } from '../record/patient-file';
import { isAffected } from '../record/patient-record';
import type { Policy } from '../record/policy';
import { lastLadder } from '../trend/last-ladder';
import { limbSeries, type SeriesVisit } from '../trend/limb-series';
import { type CalendarDay, dayNumber } from '../units/calendar-day';

/** A question that a file's figures raise: whose, when, which limb, and the question with its reason. */
export type ImportDoubt = { readonly reference: string; readonly day: CalendarDay; readonly limb: string; readonly message: string };

/**
 * Every question that the sheet would have asked while a file's figures were typed, visit by visit, each against the visits before it.
 *
 * Shape: a file, the clinic's policy; questions in order of time. Figures stay as they are; a question stays open until somebody answers it
 * on the visit's own page.
 */
export function importDoubts(file: PatientFile, policy: Policy): readonly ImportDoubt[] {
  const record = recordOfFile(file);
  const series = limbSeries(record, policy);
  return (Object.keys(LIMBS) as LimbKind[]).flatMap((limb) => {
    const sides = series.filter((one) => one.limb === limb);
    const visits = [...new Set(sides.flatMap((one) => one.visits.map(({ visit }) => visit)))].sort((one, other) =>
      `${one.day} ${one.time}`.localeCompare(`${other.day} ${other.time}`),
    );
    return visits.flatMap((visit) => {
      const taped = sides.flatMap(({ side, visits: all }) => {
        const index = all.findIndex((one) => one.visit === visit);
        const now = all[index];
        return now ? [{ side, now, limb: onSheet(now, all[index - 1], isAffected(record, limb, side)) }] : [];
      });
      const body = taped[0]?.now.body;
      if (!body) return [];
      const day = { day: dayNumber(visit.day), body, placementMm: policy.placementSdMm };
      return sheetDoubts(
        taped.map((one) => one.limb),
        day,
      ).map(({ side, doubt }) => ({
        reference: record.reference,
        day: visit.day,
        limb: limbInWords(limb, side),
        message: doubt.message,
      }));
    });
  });
}

function onSheet({ ladder }: SeriesVisit, before: SeriesVisit | undefined, affected: boolean): LimbOnSheet {
  return { ladder, rowsMm: ladder.rungs.map((rung) => rung.distance.nm / 1e6), affected, last: before && lastLadder(before) };
}
