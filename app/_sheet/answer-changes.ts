import 'server-only';
import type { KeptRecord } from '@/db/patients/records';
import { type AnalysedVisit, analysePatient } from '@/lib/analysis/analyse-patient';
import { limbInWords } from '@/lib/ladder/limb';
import type { Policy } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import type { PatientRecord, Visit } from '@/lib/record/patient-record';
import { verdictSentence } from '@/lib/summary/verdict-sentence';
import { type CalendarDay, showDay } from '@/lib/units/calendar-day';
import { showVolume } from '@/lib/units/volume';

/** One answer before and after a correction, in words. */
export type AnswerChange = { readonly what: string; readonly before: string; readonly after: string };

/**
 * What a correction does to the answers: volume and verdict of each limb at the visit, and the verdict of the visit after it.
 *
 * Answers that stay the same are in the list too, so that "nothing changes" can be seen.
 */
export function answerChanges(record: KeptRecord, visitId: string, corrected: Visit, policy: Policy, today: CalendarDay): AnswerChange[] {
  const index = record.visits.findIndex((visit) => visit.visitId === visitId);
  const replaced: PatientRecord = { ...record, visits: record.visits.map((visit, at) => (at === index ? corrected : visit)) };
  const before = answersAt(record, record.visits[index], record.visits[index + 1], policy, today);
  const after = answersAt(replaced, corrected, record.visits[index + 1], policy, today);
  return [...new Set([...before.keys(), ...after.keys()])].map((what) => ({
    what,
    before: before.get(what) ?? 'not measured',
    after: after.get(what) ?? 'not measured',
  }));
}

function answersAt(
  record: PatientRecord,
  visit: Visit | undefined,
  next: Visit | undefined,
  policy: Policy,
  today: CalendarDay,
): Map<string, string> {
  const answers = new Map<string, string>();
  for (const { series, visits } of analysePatient(record, policy, today).limbs) {
    const limb = limbInWords(series.limb, series.side);
    const here = visits.find(({ at }) => at.visit === visit);
    const later = visits.find(({ at }) => at.visit === next);
    if (here) {
      answers.set(`Volume, ${limb}`, isNoAnswer(here.volume) ? here.volume.noAnswer : showVolume(here.volume.volumeMl));
      answers.set(`Verdict, ${limb}`, verdictOf(here, record));
    }
    if (later && next) answers.set(`Verdict on ${showDay(next.day)}, ${limb}`, verdictOf(later, record));
  }
  return answers;
}

function verdictOf({ sinceLast }: AnalysedVisit, record: PatientRecord): string {
  if (!sinceLast) return 'First ladder of this limb.';
  return isNoAnswer(sinceLast) ? sinceLast.noAnswer : verdictSentence(sinceLast, record);
}
