import { and, asc, desc, eq, inArray, type SQLWrapper, sql } from 'drizzle-orm';
import type { Stop } from '@/lib/cautions/hold';
import { type Course, deathIn, endedBefore, inOrder, type Phase, type PhaseFault, phaseFaults, restsOn } from '@/lib/course/phases';
import type { CalendarDay } from '@/lib/units/calendar-day';
import type { AuditAction } from '../audit/audit-actions';
import { auditEntry } from '../audit/audit-entry';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { courseRevision, patient, user, visit, workState } from '../schema/schema';
import { readyQuery } from '../sql/ready-query';
import { assertMayWrite, type Therapist } from '../therapist';
import { inTransaction, type Written } from '../transaction';
import { changesOf, invalidateWork, invalidateWorkFrom } from './invalidate-work';
import { patientHead } from './patients';
import { isAskedPatient } from './revoked';

/** One writing of a course: what it held, by whom, when and why. */
export type KeptCourse = Course & { readonly authorName: string | null; readonly at: Date; readonly reason: string | null };

/** How the saving of a course ended. `refused`: what is wrong with it as it would stand; `conflict`: somebody else wrote in between. */
export type CourseSaved =
  | { readonly kind: 'saved' | 'already-saved' | 'not-found' | 'conflict' | 'death-undone' }
  | { readonly kind: 'refused'; readonly faults: readonly PhaseFault[] };

/** What a person does to a course: the phases as they shall stand, the deed, why; a death that is taken back is said to be a mistake. */
export type CourseEntry = {
  readonly submissionId: string;
  readonly phases: readonly Phase[];
  readonly deed: 'phase begun' | 'phase corrected' | 'phase taken back';
  readonly reason: string | null;
  readonly deathWasMistaken?: boolean;
};

/** Writers of one record that may come in between before a form is answered as stale. */
const TRIES = 3;

/** The course of each of these patients as it stands; none for who has none. One query. */
export async function coursesOfPatients(
  therapist: Pick<Therapist, 'clinicId'>,
  patientIds: readonly string[],
): Promise<ReadonlyMap<string, Course>> {
  if (patientIds.length === 0) return new Map();
  const database = await getDatabase();
  const { patientId, number, phases } = courseRevision;
  const rows = await database
    .select({ patientId, number, phases })
    .from(courseRevision)
    .where(and(eq(courseRevision.clinicId, therapist.clinicId), inArray(patientId, [...patientIds])))
    .orderBy(asc(number));
  return new Map(rows.map((row) => [row.patientId, { number: row.number, phases: row.phases.map(plain) }]));
}

/** Every writing of a patient's course, the newest first. */
export async function courseHistory(therapist: Therapist, patientId: string): Promise<readonly KeptCourse[]> {
  const database = await getDatabase();
  const { number, phases, at, reason } = courseRevision;
  const rows = await database
    .select({ number, phases, at, reason, authorName: user.name })
    .from(courseRevision)
    .leftJoin(user, eq(user.id, courseRevision.author))
    .where(and(eq(courseRevision.clinicId, therapist.clinicId), eq(courseRevision.patientId, patientId)))
    .orderBy(desc(number));
  return rows.map((row) => ({ ...row, phases: row.phases.map(plain) }));
}

/** A phase with its parts in one order: one engine keeps the parts of JSON in another. */
function plain({ kind, from, until, baselineDay, askOn, endedAs, note }: Phase): Phase {
  return { kind, from, until, baselineDay, ...(askOn && { askOn }), ...(endedAs && { endedAs }), ...(note && { note }) };
}

/**
 * Writes a patient's course as it shall stand, by a row of its own: the earlier ones stay. `expected` is the number of the writing that the
 * form stood on.
 *
 * What may stand hangs on the visits too, so the write counts on the record being as it was read: a visit saved in between makes it touch no
 * row, and all is looked at anew.
 */
export async function saveCourse(
  therapist: Therapist,
  patientId: string,
  expected: number,
  entry: CourseEntry,
  at = new Date(),
): Promise<CourseSaved> {
  assertMayWrite(therapist);
  for (let attempt = 0; attempt < TRIES; attempt++) {
    const changes = await changesOf(therapist, patientId);
    const head = await patientHead(therapist, patientId);
    if (!head) return { kind: 'not-found' };
    if (await isSubmitted(therapist, entry.submissionId)) return { kind: 'already-saved' };
    const now = (await coursesOfPatients(therapist, [patientId])).get(patientId) ?? { number: 0, phases: [] };
    if (now.number !== expected) return { kind: 'conflict' };
    const phases = inOrder(entry.phases);
    const faults = phaseFaults(phases, head.born, await visitDaysOf(therapist, patientId));
    if (faults.length > 0) return { kind: 'refused', faults };
    const died = deathIn(now.phases);
    if (died && !deathIn(phases) && !(entry.deathWasMistaken && entry.reason)) return { kind: 'death-undone' };
    const action = died && !deathIn(phases) ? 'death taken back' : !died && deathIn(phases) ? 'death noted' : entry.deed;
    const steps = courseSteps(therapist, patientId, { ...entry, phases, number: expected + 1, action }, at);
    const written = await inTransaction([...steps, invalidateWorkFrom(therapist, patientId, changes)]);
    if (written.kind === 'written') return { kind: 'saved' };
    if (written.step === 0) return { kind: (await isSubmitted(therapist, entry.submissionId)) ? 'already-saved' : 'conflict' };
  }
  return { kind: 'conflict' };
}

/** The steps that give a new patient a course as it comes in a file; none for an empty one. */
export function newCourse(
  therapist: Therapist,
  { patientId, submissionId, phases }: { readonly patientId: string; readonly submissionId: string; readonly phases: readonly Phase[] },
  at: Date,
): readonly Statement[] {
  if (phases.length === 0) return [];
  const action = deathIn(phases) ? 'death noted' : 'phase begun';
  return courseSteps(therapist, patientId, { submissionId, phases: inOrder(phases), number: 1, reason: null, action }, at);
}

type Writing = Pick<CourseEntry, 'submissionId' | 'phases' | 'reason'> & { readonly number: number; readonly action: AuditAction };

function courseSteps(therapist: Therapist, patientId: string, entry: Writing, at: Date): readonly Statement[] {
  const { number, reason, submissionId, action } = entry;
  const phases = entry.phases.map(plain);
  const diedOn = deathIn(phases)?.from ?? null;
  const signature = { author: therapist.id, at, reason, submissionId };
  const row = { id: crypto.randomUUID(), clinicId: therapist.clinicId, patientId, number, phases, diedOn, ...signature };
  return [
    (tx) => tx.insert(courseRevision).values(row).onConflictDoNothing().returning({ id: courseRevision.id }),
    auditEntry(therapist, { action, subjectKind: 'patient', subjectId: patientId, detail: { number, phases: phases.length, reason } }, at),
  ];
}

/** A write of measures that the course holds back: it had ended before their day. Nothing was written. */
export type AfterEnd = { readonly kind: 'after-end'; readonly words: string };

/** A patient that the clinic does not have. Nothing was written. */
export type NoPatient = { readonly kind: 'not-found' };

/**
 * Writes what was measured on a day, unless the course had ended before it.
 *
 * An end noted between reading and writing makes the write touch no row, and the course is read anew. After three such races figures are
 * written all the same: they are not lost to a busy record.
 */
export async function writeUnlessEnded(
  therapist: Therapist,
  patientId: string,
  day: CalendarDay,
  statements: readonly Statement[],
): Promise<Written | AfterEnd | NoPatient> {
  const database = await getDatabase();
  for (let attempt = 0; attempt <= TRIES; attempt++) {
    const [standing] = await standingOf(database, { patientId, clinicId: therapist.clinicId });
    if (!standing) return { kind: 'not-found' };
    const words = standing.phases && endedBefore(standing.phases.map(plain), day);
    if (words) return { kind: 'after-end', words };
    const asRead = attempt < TRIES ? invalidateWorkFrom(therapist, patientId, standing.changes ?? 0) : invalidateWork(therapist, patientId);
    const written = await inTransaction([...statements, asRead]);
    if (written.kind === 'written' || written.step !== statements.length) return written;
  }
  return { kind: 'untouched', step: statements.length };
}

/** Of one patient of the clinic: how many writes the record has had, and the course as it stands. One query of one row. */
const standingOf = readyQuery({ patientId: patient.id, changes: workState.changes, phases: courseRevision.phases }, (database) => {
  const newest = sql`(select max(newer.number) from course_revision newer where newer.patient_id = ${patient.id})`;
  return database
    .select({ patientId: patient.id, changes: workState.changes, phases: courseRevision.phases })
    .from(patient)
    .leftJoin(workState, eq(workState.patientId, patient.id))
    .leftJoin(courseRevision, and(eq(courseRevision.patientId, patient.id), eq(courseRevision.number, newest)))
    .where(isAskedPatient());
});

/** What holds every order and hand-over back on a day, and cannot be lifted: a death, the end of the course, a hold. */
export async function restingStop(therapist: Therapist, patientId: string, day: CalendarDay): Promise<readonly Stop[]> {
  const course = (await coursesOfPatients(therapist, [patientId])).get(patientId);
  const message = course && restsOn(course.phases, day);
  return message ? [{ key: `course ${course.number}`, card: 'course', title: 'Course of care', message }] : [];
}

/** Whether a death of this patient is on record: then nothing more is approved, signed or shared. */
export async function hasDied(therapist: Therapist, patientId: string): Promise<boolean> {
  return deathIn((await coursesOfPatients(therapist, [patientId])).get(patientId)?.phases ?? []) !== undefined;
}

/** A condition of a query: of this patient no death is on record. True again in the same write that takes a mistaken one back. */
export function isNotDead(patientId: SQLWrapper) {
  return sql`not exists (select 1 from course_revision dead where dead.patient_id = ${patientId} and dead.died_on is not null and dead.number = (select max(latest.number) from course_revision latest where latest.patient_id = dead.patient_id))`;
}

async function visitDaysOf(therapist: Therapist, patientId: string): Promise<ReadonlySet<CalendarDay>> {
  const database = await getDatabase();
  const rows = await database
    .select({ day: visit.day, revision: visit.revision })
    .from(visit)
    .where(and(eq(visit.clinicId, therapist.clinicId), eq(visit.patientId, patientId)));
  return new Set(rows.flatMap(({ day, revision }) => (revision > 0 ? [day] : [])));
}

async function isSubmitted(therapist: Therapist, submissionId: string): Promise<boolean> {
  const database = await getDatabase();
  const submitted = and(eq(courseRevision.clinicId, therapist.clinicId), eq(courseRevision.submissionId, submissionId));
  return (await database.$count(courseRevision, submitted)) > 0;
}
