import { and, eq, inArray } from 'drizzle-orm';
import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { type AnswerOutcome, answerOutcomes } from '@/lib/analysis/answer-outcomes';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import type { KeptVisit } from '../patients/read-visits';
import { answerOutcome } from '../schema/schema';
import type { Therapist } from '../therapist';
import { areSame } from './are-same';
import type { StoredAnswer } from './given-answers';

/** What came of one answer, as stored. */
export type StoredOutcome = typeof answerOutcome.$inferSelect;

type Owner = { readonly clinicId: string; readonly patientId: string };

/** Rows of one statement: PostgreSQL and SQLite bind a bounded number of values. */
const AT_ONCE = 500;

/** What is stored of what came of the answers of these patients. */
export async function outcomesOf(therapist: Therapist, patientIds: readonly string[]): Promise<readonly StoredOutcome[]> {
  const database = await getDatabase();
  const { clinicId, patientId } = answerOutcome;
  return database
    .select()
    .from(answerOutcome)
    .where(and(eq(clinicId, therapist.clinicId), inArray(patientId, [...patientIds])));
}

/**
 * What puts in place of a patient's stored outcomes those of today; nothing where they are the same already. An answer to a state of a visit that was
 * corrected since has none: the corrected one has its own.
 */
export function renewOutcomes(
  owner: Owner,
  analysis: PatientAnalysis,
  given: readonly StoredAnswer[],
  stored: readonly StoredOutcome[],
): readonly Statement[] {
  const visits = new Map(analysis.record.visits.map((visit) => [keyOf(visit as KeptVisit), visit]));
  const standing = given.flatMap(({ id, verdicts, outlooks, ...of }) => {
    const visit = visits.get(keyOf(of));
    return visit ? [{ id, visit, verdicts, outlooks }] : [];
  });
  const rows = answerOutcomes(analysis, standing).map((one) => rowOf(owner, one));
  if (areSame(rows, stored)) return [];
  const gone: Statement = (tx) =>
    tx.delete(answerOutcome).where(eq(answerOutcome.patientId, owner.patientId)).returning({ id: answerOutcome.id });
  const steps: Statement[] = stored.length > 0 ? [gone] : [];
  for (let from = 0; from < rows.length; from += AT_ONCE)
    steps.push((tx) =>
      tx
        .insert(answerOutcome)
        .values(rows.slice(from, from + AT_ONCE))
        .returning({ id: answerOutcome.id }),
    );
  return steps;
}

function keyOf({ visitId, revision }: Pick<StoredAnswer, 'visitId' | 'revision'>): string {
  return `${visitId} ${revision}`;
}

function rowOf(owner: Owner, { given: givenId, ...one }: AnswerOutcome): StoredOutcome {
  const none = {
    ...{ against: null, word: null, probability: null, tenth: null, changed: null },
    ...{ miss: null, piece: null, earlyKept: null, daysOff: null },
  };
  const of = one.kind === 'verdict' ? `${one.limb} ${one.side} ${one.against}` : one.piece;
  const tenth = one.kind === 'verdict' && one.probability !== null ? Math.min(Math.floor(one.probability * 10), 9) : null;
  return { ...none, ...one, tenth, ...owner, id: `${givenId} ${one.kind} ${of}`, givenId };
}
