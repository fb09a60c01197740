import { recordQuestions } from '../analysis/record-questions';
import { recordBodyDoubts } from '../doubts/record-body-doubts';
import { limbInWords } from '../ladder/limb';
import type { Policy } from '../limits/policy';
import { type PatientFile, recordOfFile } from '../record/patient-file';
import { limbSeries } from '../trend/limb-series';
import type { CalendarDay } from '../units/calendar-day';

/** A question that a file's figures raise: whose, when, which limb (or `height`, `weight`), and the question with its reason. */
export type ImportDoubt = { readonly reference: string; readonly day: CalendarDay; readonly limb: string; readonly message: string };

/**
 * Every question that the sheet would have asked while a file's figures were typed, visit by visit, each against the visits before it.
 *
 * Shape: a file, the clinic's policy; questions about height and weight first, then limb by limb in order of time. Figures stay as they
 * are; a question stays open until somebody answers it on the visit's own page.
 */
export function importDoubts(file: PatientFile, policy: Policy): readonly ImportDoubt[] {
  const record = recordOfFile(file);
  const { reference } = record;
  const ofBody = [...recordBodyDoubts(record, policy)].flatMap(([{ day }, doubts]) =>
    doubts.map(({ kind, message }) => ({ reference, day, limb: kind, message })),
  );
  const ofLadders = recordQuestions(record, limbSeries(record, policy), policy).map(({ visit, limb, side, doubt }) => ({
    reference,
    day: visit.day,
    limb: limbInWords(limb, side),
    message: doubt.message,
  }));
  return [...ofBody, ...ofLadders];
}
