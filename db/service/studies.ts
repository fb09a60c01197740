import { and, asc, eq } from 'drizzle-orm';
import { isNoAnswer, type NoAnswer } from '@/lib/outcome';
import { type StudyPlan, type StudyRun, type StudyTurn, turnName } from '@/lib/study/study-plan';
import { STUDY_PLAN, STUDY_RUN } from '@/lib/study/study-plan-schema';
import { type StudyResult, studyResult } from '@/lib/study/study-result';
import type { TypedLength } from '@/lib/units/length';
import { auditEntry } from '../audit/audit-entry';
import { getDatabase } from '../client';
import { studyDraft, studyRevision } from '../schema/schema';
import { unlessUnreachable } from '../sql/try-again';
import { assertMayWrite, type Therapist } from '../therapist';
import { inTransaction } from '../transaction';

/** A study as one may see it while it goes on: what it is of, which tapings are typed, and none of their figures. */
export type Study = {
  readonly studyId: string;
  readonly plan: StudyPlan;
  readonly begunAt: Date;
  /** Short names of the tapings that are typed. */
  readonly typed: ReadonlySet<string>;
  readonly isWhole: boolean;
  /** When and why a lead ended it before it was whole: nobody tapes in it any more, and it says nothing. */
  readonly ended: { readonly at: Date; readonly reason: string } | null;
  /** Of the last first typing. */
  readonly lastAt: Date;
};

/** One typing of one taping; of a corrected one there are two or more. */
export type StudyState = { readonly number: number; readonly run: StudyRun; readonly at: Date; readonly reason: string | null };

/** How a writing ended. `early`: a correction while the study goes on would show a figure to who still tapes. */
export type StudySaved = { readonly kind: 'saved' | 'already-saved' | 'not-found' | 'typed-already' | 'early' | 'ended' | 'conflict' };

const PLAN = 'plan';
const END = 'end';

/** Studies that somebody may see, the newest first: a lead all of the clinic, others those they tape in. */
export async function studiesOf(therapist: Therapist): Promise<readonly Study[]> {
  const database = await getDatabase();
  const plans = await database
    .select({ studyId: studyRevision.studyId })
    .from(studyRevision)
    .where(and(eq(studyRevision.clinicId, therapist.clinicId), eq(studyRevision.thing, PLAN)))
    .orderBy(asc(studyRevision.at));
  const studies: Study[] = [];
  for (const { studyId } of plans.reverse()) {
    const study = await studyOf(therapist, studyId);
    if (study) studies.push(study);
  }
  return studies;
}

/** One study, for a lead of its clinic or somebody who tapes in it; undefined for anybody else. */
export async function studyOf(therapist: Therapist, studyId: string): Promise<Study | undefined> {
  const rows = await rowsOf(therapist, studyId);
  const first = rows.find(({ thing }) => thing === PLAN);
  if (!first) return undefined;
  const plan = STUDY_PLAN.parse(first.content);
  if (!maySee(therapist, plan)) return undefined;
  const end = rows.find(({ thing }) => thing === END);
  const runs = rows.filter(({ thing, number }) => isTaping(thing) && number === 1);
  const lastAt = new Date(Math.max(first.at.getTime(), ...runs.map(({ at }) => at.getTime())));
  const wanted = plan.limbs.length * plan.measurers.length * plan.repeats;
  const typed = new Set(runs.map(({ thing }) => thing));
  const ended = end ? { at: end.at, reason: end.reason ?? '' } : null;
  return { studyId, plan, begunAt: first.at, typed, isWhole: runs.length === wanted, lastAt, ended };
}

/**
 * What a whole study says: a lead sees every measurer, a measurer the clinic and themselves. No answer, and no figure, while a taping is missing: who
 * leads may be taping too.
 */
export async function studyResultFor(therapist: Therapist, studyId: string): Promise<StudyResult | NoAnswer | undefined> {
  const study = await studyOf(therapist, studyId);
  if (!study) return undefined;
  const states = study.isWhole ? statesIn(await rowsOf(therapist, studyId)) : new Map<string, readonly StudyState[]>();
  const runs = [...states.values()].flatMap((each) => each.at(-1)?.run ?? []);
  const result = study.isWhole
    ? studyResult(study.plan, runs)
    : { noAnswer: `${study.typed.size} tapings are typed. A study says something when all are.` };
  if (isNoAnswer(result) || therapist.role === 'lead') return result;
  const own = study.plan.measurers.findIndex(({ id }) => id === therapist.id);
  return { ...result, measurers: result.measurers.filter(({ measurer }) => measurer === own) };
}

/** Every typing of the tapings that somebody may look at once the study is whole: a lead all, a measurer their own. */
export async function studyStatesFor(therapist: Therapist, studyId: string): Promise<ReadonlyMap<string, readonly StudyState[]>> {
  const study = await studyOf(therapist, studyId);
  if (!study?.isWhole) return new Map();
  const own = study.plan.measurers.findIndex(({ id }) => id === therapist.id);
  const states = [...statesIn(await rowsOf(therapist, studyId))];
  return new Map(states.filter(([, [first]]) => therapist.role === 'lead' || first?.run.turn.measurer === own));
}

/** Begins a study: its plan with the seed of its orders, one deed. */
export async function beginStudy(
  therapist: Therapist,
  submissionId: string,
  plan: StudyPlan,
  at = new Date(),
): Promise<{ readonly studyId: string }> {
  assertMayWrite(therapist);
  const studyId = crypto.randomUUID();
  const row = { ...signed(therapist, studyId, submissionId, at), thing: PLAN, number: 1, content: STUDY_PLAN.parse(plan), reason: null };
  const written = await inTransaction([
    insert(row),
    auditEntry(therapist, { action: 'study begun', subjectKind: 'study', subjectId: studyId }, at),
  ]);
  if (written.kind === 'written') return { studyId };
  const database = await getDatabase();
  const [before] = await database
    .select({ studyId: studyRevision.studyId })
    .from(studyRevision)
    .where(and(eq(studyRevision.clinicId, therapist.clinicId), eq(studyRevision.submissionId, submissionId)));
  if (!before) throw new Error('A study was not begun.');
  return before;
}

/**
 * Keeps one taping of the person who typed it. A second typing is a correction: with a reason, and only once the study is whole, because the form of one
 * shows its figures; both states stay. The deed says that it was done and of which taping, and no figure.
 */
export async function saveStudyRun(
  therapist: Therapist,
  studyId: string,
  entry: {
    readonly submissionId: string;
    readonly turn: StudyTurn;
    readonly girths: readonly TypedLength[];
    readonly expected: number;
    readonly reason: string | null;
  },
  at = new Date(),
): Promise<StudySaved> {
  assertMayWrite(therapist);
  const study = await studyOf(therapist, studyId);
  const { turn, girths, expected, reason, submissionId } = entry;
  if (!study || !isOwnTurn(therapist, study.plan, turn) || girths.length !== study.plan.heights.length) return { kind: 'not-found' };
  const thing = turnName(turn);
  const rows = await rowsOf(therapist, studyId);
  if (rows.some((row) => row.submissionId === submissionId)) return { kind: 'already-saved' };
  const last = rows.filter((row) => row.thing === thing).length;
  if (study.ended) return { kind: 'ended' };
  if (last > 0 && expected === 0) return { kind: 'typed-already' };
  if (expected > 0 && !study.isWhole) return { kind: 'early' };
  if (last !== expected || (expected > 0 && !reason)) return { kind: 'conflict' };
  const content = STUDY_RUN.parse({ turn, girths });
  const row = { ...signed(therapist, studyId, submissionId, at), thing, number: last + 1, content, reason };
  const action = expected === 0 ? ('study taping saved' as const) : ('study taping corrected' as const);
  const written = await inTransaction([
    insert(row),
    auditEntry(
      therapist,
      { action, subjectKind: 'study', subjectId: studyId, detail: { taping: thing, ...(reason ? { reason } : {}) } },
      at,
    ),
  ]);
  if (written.kind !== 'written') return { kind: 'conflict' };
  const database = await getDatabase();
  // A draft that stays behind is offered no more: its taping is typed.
  const ofTaping = and(eq(studyDraft.studyId, studyId), eq(studyDraft.thing, thing));
  await unlessUnreachable(async () => database.delete(studyDraft).where(ofTaping));
  return { kind: 'saved' };
}

/**
 * Ends a study that will not be finished: a lead, with the reason. What was typed stays and is shown to nobody, since a study says something only
 * when all of it is typed; a whole one has ended by itself.
 */
export async function endStudy(
  lead: Therapist,
  studyId: string,
  entry: { readonly submissionId: string; readonly reason: string },
  at = new Date(),
): Promise<StudySaved> {
  assertMayWrite(lead);
  const study = await studyOf(lead, studyId);
  if (!study || lead.role !== 'lead') return { kind: 'not-found' };
  if (study.ended) return { kind: 'already-saved' };
  if (study.isWhole) return { kind: 'typed-already' };
  const { submissionId, reason } = entry;
  const row = { ...signed(lead, studyId, submissionId, at), thing: END, number: 1, content: {}, reason };
  const deed = auditEntry(lead, { action: 'study ended', subjectKind: 'study', subjectId: studyId, detail: { reason } }, at);
  const written = await inTransaction([insert(row), deed]);
  return { kind: written.kind === 'written' ? 'saved' : 'conflict' };
}

function maySee(therapist: Therapist, plan: StudyPlan): boolean {
  return therapist.role === 'lead' || plan.measurers.some(({ id }) => id === therapist.id);
}

/** Whether a taping of the plan is that person’s to type. */
export function isOwnTurn(therapist: Therapist, plan: StudyPlan, { measurer, limb, repeat }: StudyTurn): boolean {
  const isThere = plan.limbs[limb] !== undefined && repeat >= 0 && repeat < plan.repeats && Number.isInteger(repeat);
  return isThere && plan.measurers[measurer]?.id === therapist.id;
}

function isTaping(thing: string): boolean {
  return thing !== PLAN && thing !== END;
}

type Row = typeof studyRevision.$inferSelect;

async function rowsOf(therapist: Therapist, studyId: string): Promise<readonly Row[]> {
  const database = await getDatabase();
  return database
    .select()
    .from(studyRevision)
    .where(and(eq(studyRevision.clinicId, therapist.clinicId), eq(studyRevision.studyId, studyId)))
    .orderBy(asc(studyRevision.thing), asc(studyRevision.number));
}

function statesIn(rows: readonly Row[]): ReadonlyMap<string, readonly StudyState[]> {
  const states = new Map<string, StudyState[]>();
  for (const { thing, number, content, at, reason } of rows) {
    if (!isTaping(thing)) continue;
    const state = { number, run: STUDY_RUN.parse(content), at, reason };
    states.get(thing)?.push(state) ?? states.set(thing, [state]);
  }
  return states;
}

function signed(therapist: Therapist, studyId: string, submissionId: string, at: Date) {
  return { id: crypto.randomUUID(), clinicId: therapist.clinicId, studyId, author: therapist.id, at, submissionId };
}

function insert(row: typeof studyRevision.$inferInsert) {
  return (tx: Awaited<ReturnType<typeof getDatabase>>) =>
    tx.insert(studyRevision).values(row).onConflictDoNothing().returning({ id: studyRevision.id });
}
