import 'server-only';
import { notFound } from 'next/navigation';
import { todayIn } from '@/app/_auth/today';
import { type Clinic, clinicOf } from '@/db/clinic/clinic';
import { diaryOf } from '@/db/clinic/diary';
import { policyOf } from '@/db/clinic/policy';
import { type KeptRecord, recordOf } from '@/db/patients/records';
import type { Therapist } from '@/db/therapist';
import { movesOf } from '@/db/worklist/moved-dates';
import { answersOf, asKnown, type KnownAnswer } from '@/db/worklist/prompt-answers';
import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import type { Diary } from '@/lib/diary/diary';
import type { MergedPrompt } from '@/lib/prompts/decide-prompts';
import { patientWork } from '@/lib/schedule/patient-work';
import type { ScheduledDate } from '@/lib/schedule/scheduled-date';
import { stillOpen } from '@/lib/schedule/still-open';
import type { CalendarDay } from '@/lib/units/calendar-day';

/** What every screen of one patient starts from. */
export type LoadedPatient = {
  readonly clinic: Clinic;
  readonly today: CalendarDay;
  readonly record: KeptRecord;
  readonly analysis: PatientAnalysis;
  /** Open prompts, most urgent first. */
  readonly prompts: readonly MergedPrompt[];
  /** Every prompt the rules raise, answered or not, and every answer given, oldest first. */
  readonly raised: readonly MergedPrompt[];
  readonly answers: readonly KnownAnswer[];
  readonly dates: readonly ScheduledDate[];
  /** What is open although no prompt asks: dates that passed, prompts put off, pieces outside their band. */
  readonly stillOpen: readonly string[];
  /** When the clinic works. */
  readonly diary: Diary;
};

/** A patient of the therapist's clinic with today's analysis, prompts and dates; any other id is a page that is not there. */
export async function loadPatient(therapist: Therapist, patientId: string): Promise<LoadedPatient> {
  const [record, clinic, answers, moves, policy, diary] = await Promise.all([
    recordOf(therapist, patientId),
    clinicOf(therapist),
    answersOf(therapist, [patientId]).then((kept) => kept.map(asKnown)),
    movesOf(therapist, [patientId]),
    policyOf(therapist),
    diaryOf(therapist),
  ]);
  if (!record) notFound();
  const today = todayIn(clinic.timeZone);
  const work = patientWork(record, { answers, moves, diary }, policy, today);
  const { analysis, open, raised, dates } = work;
  return { clinic, today, record, analysis, prompts: open, raised, answers, dates, stillOpen: stillOpen(work, answers, today), diary };
}
