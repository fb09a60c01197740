import { and, desc, eq, inArray, max } from 'drizzle-orm';
import type { CardAnswered } from '@/lib/cautions/read-caution-form';
import type { CardAnswer, CautionAnswer, CautionFigures } from '@/lib/record/caution-answer';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { auditEntry } from '../audit/audit-entry';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { cautionAnswer, user, visit } from '../schema/schema';
import { deterministicId } from '../sql/deterministic-id';
import { isDuplicate } from '../sql/is-duplicate';
import { assertMayWrite, type Therapist } from '../therapist';
import { inTransaction } from '../transaction';
import { invalidateWork } from './invalidate-work';
import { patientHead } from './patients';

/** An answer as kept: the visit it was given at, the wording it was asked in, and who answered when. */
export type KeptCaution = CautionAnswer & {
  readonly id: string;
  readonly patientId: string;
  readonly visitId: string | null;
  readonly wording: string;
  readonly by: string;
  readonly byName: string | null;
  readonly at: Date;
};

/** Answers to some cards, given on a day, at a visit where there was one. */
type Given = { readonly visitId: string | null; readonly day: CalendarDay; readonly answers: readonly CardAnswered[] };

/**
 * Keeps the answers to some cards, all or none, each as a row of its own; earlier answers stay. False when patient or visit is not the clinic's.
 *
 * The same form sent again with the same answers is kept once; with other answers it is another form, so that no answer is ever lost.
 */
export async function answerCautions(
  therapist: Therapist,
  patientId: string,
  given: Given & { readonly submissionId: string },
  at = new Date(),
): Promise<boolean> {
  assertMayWrite(therapist);
  if (given.answers.length === 0 || !(await patientHead(therapist, patientId))) return false;
  if (given.visitId !== null && !(await isVisitOf(therapist, patientId, given.visitId))) return false;
  const said = given.answers.map(({ card, answer, words, figures }) => [card, answer, words, figures.details ?? null]);
  const idOf = (card: string) => deterministicId(therapist.clinicId, patientId, given.submissionId, JSON.stringify(said), card);
  try {
    await inTransaction([...cautionSteps(therapist, patientId, given, at, idOf), invalidateWork(therapist, patientId)]);
  } catch (error) {
    if (!isDuplicate(error) || !(await isKept(given.answers.map(({ card }) => idOf(card))))) throw error;
  }
  return true;
}

/** The steps that keep answers to some cards: a row each, and their note in the audit. */
export function cautionSteps(
  therapist: Therapist,
  patientId: string,
  given: Given,
  at: Date,
  idOf: (card: string) => string = () => crypto.randomUUID(),
  action: 'cautions answered' | 'hold lifted by override' = 'cautions answered',
): readonly Statement[] {
  const asked = { clinicId: therapist.clinicId, patientId, visitId: given.visitId, day: given.day, by: therapist.id, at };
  const rows = given.answers.map((answer) => ({ id: idOf(answer.card), ...asked, ...answer, figures: { ...answer.figures } }));
  const detail = { visitId: given.visitId, answers: Object.fromEntries(given.answers.map(({ card, answer }) => [card, answer])) };
  return [
    (tx) => tx.insert(cautionAnswer).values(rows).returning({ id: cautionAnswer.id }),
    auditEntry(therapist, { action, subjectKind: 'patient', subjectId: patientId, detail }, at),
  ];
}

/** The latest answer to each card of these patients, in one query that reads no older ones. */
export async function cautionsOfPatients(therapist: Therapist, patientIds: readonly string[]): Promise<readonly KeptCaution[]> {
  if (patientIds.length === 0) return [];
  const database = await getDatabase();
  const newest = database
    .select({ patientId: cautionAnswer.patientId, card: cautionAnswer.card, at: max(cautionAnswer.at).as('newest_at') })
    .from(cautionAnswer)
    .where(and(eq(cautionAnswer.clinicId, therapist.clinicId), inArray(cautionAnswer.patientId, [...patientIds])))
    .groupBy(cautionAnswer.patientId, cautionAnswer.card)
    .as('newest');
  const rows = await database
    .select(answerColumns)
    .from(cautionAnswer)
    .innerJoin(
      newest,
      and(eq(newest.patientId, cautionAnswer.patientId), eq(newest.card, cautionAnswer.card), eq(newest.at, cautionAnswer.at)),
    )
    .leftJoin(user, eq(user.id, cautionAnswer.by))
    .where(eq(cautionAnswer.clinicId, therapist.clinicId))
    .orderBy(cautionAnswer.patientId, cautionAnswer.card, cautionAnswer.id);
  const one = new Map(rows.map((row) => [`${row.patientId} ${row.card}`, asKept(row)]));
  return [...one.values()];
}

/** Answers to a patient's cards, newest first, at most so many. */
export async function cautionHistory(therapist: Therapist, patientId: string, most = 200): Promise<readonly KeptCaution[]> {
  const database = await getDatabase();
  const rows = await database
    .select(answerColumns)
    .from(cautionAnswer)
    .leftJoin(user, eq(user.id, cautionAnswer.by))
    .where(and(eq(cautionAnswer.clinicId, therapist.clinicId), eq(cautionAnswer.patientId, patientId)))
    .orderBy(desc(cautionAnswer.at), desc(cautionAnswer.id))
    .limit(most);
  return rows.map(asKept);
}

const answerColumns = {
  id: cautionAnswer.id,
  patientId: cautionAnswer.patientId,
  visitId: cautionAnswer.visitId,
  day: cautionAnswer.day,
  card: cautionAnswer.card,
  cardVersion: cautionAnswer.cardVersion,
  answer: cautionAnswer.answer,
  figures: cautionAnswer.figures,
  wording: cautionAnswer.wording,
  words: cautionAnswer.words,
  by: cautionAnswer.by,
  byName: user.name,
  at: cautionAnswer.at,
};

type Row = Omit<KeptCaution, 'answer' | 'figures'> & {
  readonly answer: string;
  readonly figures: Readonly<Record<string, unknown>> | null;
};

function asKept(row: Row): KeptCaution {
  return { ...row, answer: row.answer as CardAnswer, figures: row.figures as CautionFigures | null };
}

async function isKept(ids: readonly string[]): Promise<boolean> {
  return (await (await getDatabase()).$count(cautionAnswer, inArray(cautionAnswer.id, [...ids]))) === ids.length;
}

async function isVisitOf(therapist: Therapist, patientId: string, visitId: string): Promise<boolean> {
  const database = await getDatabase();
  const ours = and(eq(visit.id, visitId), eq(visit.patientId, patientId), eq(visit.clinicId, therapist.clinicId));
  const [found] = await database.select({ id: visit.id }).from(visit).where(ours);
  return found !== undefined;
}
