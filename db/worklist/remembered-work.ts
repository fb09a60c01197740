import { eq } from 'drizzle-orm';
import type { Diary } from '@/lib/diary/diary';
import type { Policy } from '@/lib/limits/policy';
import { type PatientWork, patientWork } from '@/lib/schedule/patient-work';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { getDatabase } from '../client';
import { measurersOf } from '../patients/measurers';
import { type KeptRecord, recordOf } from '../patients/records';
import { isAskedPatient } from '../patients/revoked';
import { patient, workState } from '../schema/schema';
import { databaseAddress } from '../sql/database';
import { readyQuery } from '../sql/ready-query';
import type { Therapist } from '../therapist';
import { movesOf } from './moved-dates';
import { answersOf, asKnown, type KnownAnswer } from './prompt-answers';

/** What a screen of one patient starts from: the record with the answers given, and all that is to be done. */
export type RecordedWork = { readonly record: KeptRecord; readonly answers: readonly KnownAnswer[]; readonly work: PatientWork };

/** Visits of all remembered patients together, at most: an analysis grows with them. */
const MOST_VISITS = 1000;
/** Nothing older is handed out, and it goes when the next is kept: what was erased elsewhere leaves this process too, ms. */
const LONGEST_MS = 10 * 60_000;

type Kept = { readonly key: string; readonly at: number; readonly known: RecordedWork };

const held = globalThis as typeof globalThis & { rungwiseWork?: Map<string, Kept> };

const changesOfPatient = readyQuery({ patientId: patient.id, changes: workState.changes }, (database) =>
  database
    .select({ patientId: patient.id, changes: workState.changes })
    .from(patient)
    .leftJoin(workState, eq(workState.patientId, patient.id))
    .where(isAskedPatient()),
);

/**
 * A patient’s record with its analysis for a day, worked out once for each state of the record; undefined when the clinic has no such patient.
 *
 * How many writes the record has had is read first, in every request, and from the database: what is remembered counts only for that number, that
 * day, those limits and working days and those people of the clinic, so that no write, of this process or another, is ever hidden by it. A write
 * that comes between the number and the record leaves a newer record under an older number, which is asked for no more.
 */
export async function recordedWork(
  therapist: Therapist,
  patientId: string,
  given: { readonly policy: Policy; readonly diary: Diary; readonly today: CalendarDay },
): Promise<RecordedWork | undefined> {
  const { policy, diary, today } = given;
  const [[state], measurers] = await Promise.all([
    changesOfPatient(await getDatabase(), { patientId, clinicId: therapist.clinicId }),
    measurersOf(therapist),
  ]);
  held.rungwiseWork ??= new Map();
  const remembered = held.rungwiseWork;
  if (!state) {
    remembered.delete(patientId);
    return undefined;
  }
  const key = JSON.stringify([databaseAddress(), therapist.clinicId, state.changes, today, policy, diary, measurers.words]);
  const found = remembered.get(patientId);
  remembered.delete(patientId);
  if (state.changes !== null && found?.key === key && Date.now() - found.at < LONGEST_MS) {
    remembered.set(patientId, found);
    return found.known;
  }
  const [record, kept, moves] = await Promise.all([
    recordOf(therapist, patientId, measurers),
    answersOf(therapist, [patientId]),
    movesOf(therapist, [patientId]),
  ]);
  if (!record) return undefined;
  const answers = kept.map(asKnown);
  const known = { record, answers, work: patientWork(record, { answers, moves, diary }, policy, today) };
  remembered.set(patientId, { key, at: Date.now(), known });
  leaveOldest(remembered);
  return known;
}

/** Forgets those asked for longest ago until the rest is small enough, and all that is too old. */
function leaveOldest(remembered: Map<string, Kept>): void {
  const now = Date.now();
  let visits = 0;
  for (const [patientId, { at, known }] of [...remembered].reverse()) {
    visits += known.record.visits.length + 1;
    if (visits > MOST_VISITS || now - at >= LONGEST_MS) remembered.delete(patientId);
  }
}
