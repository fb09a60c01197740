import { and, asc, eq, inArray } from 'drizzle-orm';
import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { answersToGive, ENGINE_VERSION } from '@/lib/analysis/given-answers';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import type { KeptVisit } from '../patients/read-visits';
import { givenAnswer } from '../schema/schema';
import type { Therapist } from '../therapist';

/** What was given of one revision of a visit. */
export type StoredAnswer = typeof givenAnswer.$inferSelect;
/** A visit as it stood, and whose: what says whether an answer was given already. */
export type AnswerKey = Pick<StoredAnswer, 'patientId' | 'visitId' | 'revision'>;

type Owner = { readonly clinicId: string; readonly patientId: string };

/** Which visits of these patients have been answered. */
export async function answeredVisits(therapist: Therapist, patientIds: readonly string[]): Promise<readonly AnswerKey[]> {
  const database = await getDatabase();
  const { patientId, visitId, revision, clinicId } = givenAnswer;
  return database
    .select({ patientId, visitId, revision })
    .from(givenAnswer)
    .where(and(eq(clinicId, therapist.clinicId), inArray(patientId, [...patientIds])));
}

/** Everything that was given of a patient, oldest first. */
export async function givenAnswersOf(therapist: Therapist, patientId: string): Promise<readonly StoredAnswer[]> {
  const database = await getDatabase();
  return database
    .select()
    .from(givenAnswer)
    .where(and(eq(givenAnswer.clinicId, therapist.clinicId), eq(givenAnswer.patientId, patientId)))
    .orderBy(asc(givenAnswer.givenOn), asc(givenAnswer.revision));
}

/** What stores today's answers of a patient's newest visits, each once; none where all were given. */
export function giveAnswers(owner: Owner, analysis: PatientAnalysis, basis: string, answered: readonly AnswerKey[]): readonly Statement[] {
  const rows = answersToGive(analysis).flatMap(({ visit, verdicts, outlooks }) => {
    const { visitId, revision } = visit as KeptVisit;
    if (verdicts.length + outlooks.length === 0) return [];
    if (answered.some((one) => one.visitId === visitId && one.revision === revision)) return [];
    const given = { givenOn: analysis.today, engine: ENGINE_VERSION, basis, verdicts, outlooks };
    return [{ id: crypto.randomUUID(), ...owner, visitId, revision, ...given }];
  });
  return rows.length === 0 ? [] : [(tx) => tx.insert(givenAnswer).values(rows).returning({ id: givenAnswer.id })];
}
