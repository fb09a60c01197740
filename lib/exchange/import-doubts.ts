import { recordQuestions } from '../analysis/record-questions';
import { recordBodyDoubts, withoutBodyInDoubt } from '../doubts/record-body-doubts';
import { recordMeasureDoubts } from '../doubts/record-measure-doubts';
import { limbInWords } from '../ladder/limb';
import type { Policy } from '../limits/policy';
import { measureOf } from '../parts/catalogue';
import { measureInWords } from '../parts/measure';
import { type PatientFile, recordOfFile } from '../record/patient-file';
import { limbSeries } from '../trend/limb-series';
import type { CalendarDay } from '../units/calendar-day';

/** A question that a file's figures raise: whose, when, which limb (or `height`, `weight`, a named measure), and the question with its reason. */
export type ImportDoubt = { readonly reference: string; readonly day: CalendarDay; readonly limb: string; readonly message: string };

/**
 * Every question that the sheet would have asked while a file's figures were typed, visit by visit, each against the visits before it.
 *
 * Shape: a file, the clinic's policy; questions about height and weight first, then limb by limb in order of time, then named measures. Figures stay as they
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
  const trusted = withoutBodyInDoubt(record, policy);
  const open = recordMeasureDoubts(trusted, policy);
  const ofMeasures = trusted.visits.flatMap(({ day, measures }) =>
    (measures ?? []).flatMap((taken) => {
      const measure = measureOf(taken.measure);
      const limb = measure ? measureInWords(measure, taken.side) : taken.measure;
      return (open.get(taken) ?? []).map(({ message }) => ({ reference, day, limb, message }));
    }),
  );
  return [...ofBody, ...ofLadders, ...ofMeasures];
}
