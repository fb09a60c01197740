import 'server-only';
import { notFound } from 'next/navigation';
import { todayIn } from '@/app/_auth/today';
import { type Clinic, clinicOf } from '@/db/clinic/clinic';
import { diaryOf } from '@/db/clinic/diary';
import { policyOf } from '@/db/clinic/policy';
import type { KeptRecord } from '@/db/patients/records';
import type { Therapist } from '@/db/therapist';
import type { KnownAnswer } from '@/db/worklist/prompt-answers';
import { recordedWork } from '@/db/worklist/remembered-work';
import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import type { Diary } from '@/lib/diary/diary';
import type { MergedPrompt } from '@/lib/prompts/decide-prompts';
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
  const [clinic, policy, diary] = await Promise.all([clinicOf(therapist), policyOf(therapist), diaryOf(therapist)]);
  const today = todayIn(clinic.timeZone);
  const known = await recordedWork(therapist, patientId, { policy, diary, today });
  if (!known) notFound();
  const { record, answers, work } = known;
  const { analysis, open, raised, dates } = work;
  return { clinic, today, record, analysis, prompts: open, raised, answers, dates, stillOpen: stillOpen(work, answers, today), diary };
}
