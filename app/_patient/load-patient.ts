import 'server-only';
import { notFound } from 'next/navigation';
import { todayIn } from '@/app/_session/today';
import { type Clinic, clinicOf } from '@/db/clinic';
import { policyOf } from '@/db/policy';
import { answersOf } from '@/db/prompt-answers';
import { type KeptRecord, recordOf } from '@/db/records';
import type { Therapist } from '@/db/therapist';
import { analysePatient, type PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { type MergedPrompt, mergeByCause, openPrompts, raisePrompts } from '@/lib/prompts/decide-prompts';
import type { CalendarDay } from '@/lib/units/calendar-day';

/** What every screen of one patient starts from. */
export type LoadedPatient = {
  readonly clinic: Clinic;
  readonly today: CalendarDay;
  readonly record: KeptRecord;
  readonly analysis: PatientAnalysis;
  readonly prompts: readonly MergedPrompt[];
};

/** A patient of the therapist's clinic with today's analysis and open prompts; any other id is a page that is not there. */
export async function loadPatient(therapist: Therapist, patientId: string): Promise<LoadedPatient> {
  const record = await recordOf(therapist, patientId);
  if (!record) notFound();
  const clinic = await clinicOf(therapist);
  const today = todayIn(clinic.timeZone);
  const analysis = analysePatient(record, await policyOf(therapist), today);
  const answers = await answersOf(therapist, [patientId]);
  const known = answers.map((answer) => ({
    cause: answer.promptKey,
    inputs: answer.inputsHash,
    answer: answer.answer,
    until: answer.until,
  }));
  return {
    clinic,
    today,
    record,
    analysis,
    prompts: openPrompts(mergeByCause(raisePrompts(analysis)), known, today),
  };
}
