import { and, eq, inArray, lt } from 'drizzle-orm';
import type { Diary } from '@/lib/diary/diary';
import type { Policy } from '@/lib/limits/policy';
import { patientWork } from '@/lib/schedule/patient-work';
import { addDays, type CalendarDay } from '@/lib/units/calendar-day';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { diaryOf } from '../clinic/diary';
import { policyOf } from '../clinic/policy';
import { measurerMatches } from '../patients/measurers';
import { recordsOf } from '../patients/records';
import { dueDate, serviceCount, workCount, workLine, workState } from '../schema/schema';
import { countPatients, countsOfNothing, countUncounted } from '../service/renew-parts';
import { letOthers } from '../sql/let-others';
import { readEach, unlessDamaged } from '../sql/read-each';
import { ifItCan, unlessTrouble } from '../sql/storage-trouble';
import type { Therapist } from '../therapist';
import { inTransaction } from '../transaction';
import { outcomesOf, renewOutcomes } from './answer-outcomes';
import { answersNotGiven, giveAnswers, givenAnswersOf } from './given-answers';
import { movesOf } from './moved-dates';
import { answersOf, asKnown } from './prompt-answers';
import { casesOf, renewCases } from './service-cases';
import { claimStale, type WorkAim } from './stale-work';
import { workBasis } from './work-basis';
import { countChanges, dateChanges, type LineChanges, lineChanges } from './work-diff';

/** Patients held in memory at once. */
const BATCH = 20;
/** A claim that its process did not live to finish is free again after this. */
const CLAIM_MS = 60_000;
/** Writes to one record that may come in between before a renewal leaves it to a later one. */
const TRIES = 3;
/** Counts of nothing are swept away this long after their day. */
const SWEEP_DAYS = 90;

/** What stored lines must be made for today: the day, the clinic's rules and limits, and when it works. */
export async function workAim(therapist: Therapist, today: CalendarDay): Promise<Aim> {
  const [policy, diary, matches] = [await policyOf(therapist), await diaryOf(therapist), await measurerMatches(therapist)];
  return { today, basis: workBasis(policy, diary, matches), policy, diary };
}

/**
 * Makes the stored lines, counts and dates of one patient anew, unless they hold for today already. Where nothing can be written they stay
 * stale, and are made when Today is next read.
 */
export async function refreshPatient(therapist: Therapist, patientId: string, today: CalendarDay): Promise<void> {
  const aim = await workAim(therapist, today);
  for (let attempt = 0; attempt < TRIES; attempt++) {
    const left = await unlessTrouble(() => renewBatch(therapist, [patientId], aim));
    if (left === undefined || left.length === 0) break;
  }
  await countPatients(therapist, [patientId]);
}

/**
 * Renews stale patients of the clinic, a batch at a time, until none is left, `most` are done or `until` has passed; gives how many.
 *
 * Any number of processes may do so at once: each claims its own patients. What one leaves behind is free again after a minute, and what
 * was renewed stays renewed. Other requests are let in between two patients.
 */
export async function refreshStale(
  therapist: Therapist,
  today: CalendarDay,
  {
    most = Number.POSITIVE_INFINITY,
    until,
    done = () => {},
  }: { most?: number; until?: () => boolean; done?: (renewed: number) => void } = {},
): Promise<number> {
  const aim = await workAim(therapist, today);
  let renewed = 0;
  while (renewed < most && !until?.()) {
    const ids = await claimStale(therapist, aim, Math.min(BATCH, most - renewed), new Date(), CLAIM_MS);
    if (ids.length === 0) break;
    let left: readonly string[] = ids;
    for (let attempt = 0; attempt < TRIES && left.length > 0; attempt++) left = await renewBatch(therapist, left, aim);
    await countPatients(therapist, ids);
    renewed += ids.length - left.length;
    done(renewed);
  }
  if (renewed > 0) await sweepCounts(therapist, today);
  if (most === Number.POSITIVE_INFINITY) await countUncounted(therapist, until);
  return renewed;
}

/**
 * Renews these patients; gives those whose record was written to, or that were renewed by another, while this went on.
 *
 * All are written in one transaction, which costs one flush of the disk; when one of them cannot be, each in its own.
 */
async function renewBatch(therapist: Therapist, ids: readonly string[], { today, basis, policy, diary }: Aim): Promise<readonly string[]> {
  const database = await getDatabase();
  const ours = [...ids];
  const states = await database
    .select()
    .from(workState)
    .where(and(eq(workState.clinicId, therapist.clinicId), inArray(workState.patientId, ours)));
  const stale = states
    .filter((state) => state.renewedFor !== today || state.basis !== basis)
    .sort((one, other) => (one.patientId < other.patientId ? -1 : 1));
  const staleIds = stale.map((state) => state.patientId);
  if (stale.length === 0) return [];
  const { read, failed } = await readEach(staleIds, (some) => recordsOf(therapist, some));
  const records = new Map(read.map((record) => [record.head.patientId, record]));
  const answers = await answersOf(therapist, staleIds);
  const moves = await movesOf(therapist, staleIds);
  const given = await givenAnswersOf(therapist, staleIds);
  const outcomes = await outcomesOf(therapist, staleIds);
  const cases = await casesOf(therapist, staleIds);
  const lines = await database.select().from(workLine).where(inArray(workLine.patientId, staleIds));
  const dates = await database.select().from(dueDate).where(inArray(dueDate.patientId, staleIds));
  const renewals: Renewal[] = [];
  for (const { patientId, changes, renewals: times, basis: before, renewedFor } of stale) {
    // Lines of a record that cannot be read stay as they are; its own page says why.
    if (failed.includes(patientId)) continue;
    const own = <T extends { readonly patientId: string }>(rows: readonly T[]) => rows.filter((row) => row.patientId === patientId);
    const record = records.get(patientId);
    const known = { answers: own(answers).map(asKnown), moves: own(moves), diary };
    const work = record && unlessDamaged(() => patientWork(record, known, policy, today));
    if (record && !work) continue;
    const owner = { clinicId: therapist.clinicId, patientId };
    const unchanged = and(eq(workState.patientId, patientId), eq(workState.changes, changes), eq(workState.renewals, times));
    const { statements, counts } = lineChanges(owner, work, own(lines), before === null);
    const dated = dateChanges(owner, work?.dates ?? [], own(dates), record, new Date());
    const fresh = work ? answersNotGiven(owner, work.analysis, basis, own(given)) : [];
    // A new day alone changes nothing of what came, and of the ended months only where one has ended since.
    const onlyDay = renewedFor !== null && before === basis && fresh.length === 0;
    const sameMonth = onlyDay && renewedFor.slice(0, 7) === today.slice(0, 7);
    const came = work && !onlyDay ? renewOutcomes(owner, work.analysis, [...own(given), ...fresh], own(outcomes)) : [];
    const counted = work && !sameMonth ? renewCases(owner, work.analysis, own(cases)) : [];
    const renewed = { renewedFor: today, basis, claimedUntil: null, renewals: times + 1 };
    const state: Statement = (tx) =>
      tx
        .update(workState)
        .set(came.length + counted.length > 0 ? { ...renewed, counted: false } : renewed)
        .where(unchanged)
        .returning({ id: workState.patientId });
    renewals.push({ patientId, statements: [state, ...statements, ...dated, ...giveAnswers(fresh), ...came, ...counted], counts });
    await letOthers();
  }
  if (await write(therapist, renewals)) return [];
  if (renewals.length === 1) return staleIds;
  const left: string[] = [];
  for (const renewal of renewals) if (!(await write(therapist, [renewal]))) left.push(renewal.patientId);
  return left;
}

type Renewal = LineChanges & { readonly patientId: string };

/** Writes renewals, all or none; states are taken in one order, counts at the end, so that two renewals never wait for each other in a ring. */
async function write(therapist: Therapist, renewals: readonly Renewal[]): Promise<boolean> {
  const statements = renewals.flatMap((one) => one.statements);
  const counts = countChanges(
    therapist.clinicId,
    renewals.flatMap((one) => one.counts),
  );
  return (await inTransaction([...statements, ...counts])).kind === 'written';
}

type Aim = WorkAim & { readonly policy: Policy; readonly diary: Diary };

async function sweepCounts(therapist: Therapist, today: CalendarDay): Promise<void> {
  const database = await getDatabase();
  const { clinicId, lines, due } = workCount;
  const old = and(eq(clinicId, therapist.clinicId), eq(lines, 0), lt(due, addDays(today, -SWEEP_DAYS)));
  await ifItCan(async () => database.delete(workCount).where(old));
  await ifItCan(async () => database.delete(serviceCount).where(countsOfNothing(therapist.clinicId)));
}
