import { and, eq, gt, gte, inArray, lt, sql } from 'drizzle-orm';
import type { AnswerCount } from '@/lib/service/service-counts';
import { daysOfPeriod, type ServicePeriod } from '@/lib/service/service-period';
import { REVOKED } from '../patients/revoked';
import { patient, promptAnswer } from '../schema/schema';
import type { Database } from '../sql/database';
import type { Therapist } from '../therapist';

const ANSWERS = ['act', 'not-now', 'not-for-this-patient'] as const satisfies readonly AnswerCount['answer'][];

/** Prompts of the clinic that were acted on, put off or declined in a period, each by the last of these answers; days end at midnight UTC. */
export function answeredOf(database: Database, therapist: Therapist, period: ServicePeriod) {
  const { from, before } = daysOfPeriod(period);
  const { patientId, promptKey, inputsHash, at, id, answer, rule } = promptAnswer;
  const given = database
    .select({
      patientId,
      rule,
      answer,
      at,
      place: sql<number>`row_number() over (partition by ${patientId}, ${promptKey}, ${inputsHash} order by ${at} desc, ${id} desc)`.as(
        'place',
      ),
    })
    .from(promptAnswer)
    .innerJoin(patient, and(eq(patient.id, patientId), gt(patient.revision, REVOKED)))
    .where(
      and(
        eq(promptAnswer.clinicId, therapist.clinicId),
        inArray(answer, [...ANSWERS]),
        lt(at, new Date(`${before}T00:00:00Z`)),
        from ? gte(at, new Date(`${from}T00:00:00Z`)) : undefined,
      ),
    )
    .as('given');
  return database
    .select({ patientId: given.patientId, rule: given.rule, answer: given.answer, at: given.at })
    .from(given)
    .where(eq(given.place, 1))
    .as('answered');
}
