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
type Owner = { readonly clinicId: string; readonly patientId: string };

/** Everything that was given of these patients, oldest first. */
export async function givenAnswersOf(therapist: Therapist, patientIds: readonly string[]): Promise<readonly StoredAnswer[]> {
  const database = await getDatabase();
  return database
    .select()
    .from(givenAnswer)
    .where(and(eq(givenAnswer.clinicId, therapist.clinicId), inArray(givenAnswer.patientId, [...patientIds])))
    .orderBy(asc(givenAnswer.givenOn), asc(givenAnswer.revision));
}

/** Today's answers of a patient's newest visits that were not given yet, as rows to store, each once. */
export function answersNotGiven(
  owner: Owner,
  analysis: PatientAnalysis,
  basis: string,
  answered: readonly StoredAnswer[],
): readonly StoredAnswer[] {
  return answersToGive(analysis).flatMap(({ visit, verdicts, outlooks }) => {
    const { visitId, revision } = visit as KeptVisit;
    if (verdicts.length + outlooks.length === 0) return [];
    if (answered.some((one) => one.visitId === visitId && one.revision === revision)) return [];
    const given = { givenOn: analysis.today, engine: ENGINE_VERSION, basis, verdicts, outlooks };
    return [{ id: crypto.randomUUID(), ...owner, visitId, revision, ...given }];
  });
}

/** What stores these answers; none where there are none. */
export function giveAnswers(rows: readonly StoredAnswer[]): readonly Statement[] {
  return rows.length === 0
    ? []
    : [
        (tx) =>
          tx
            .insert(givenAnswer)
            .values([...rows])
            .returning({ id: givenAnswer.id }),
      ];
}
