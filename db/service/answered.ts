import { and, eq, gt, gte, inArray, lt, sql } from 'drizzle-orm';
import type { AnswerCount } from '@/lib/service/service-counts';
import { daysOfPeriod, type ServicePeriod } from '@/lib/service/service-period';
import { REVOKED } from '../patients/revoked';
import { patient, promptAnswer } from '../schema/schema';
import type { Database } from '../sql/database';
import type { OfClinic } from './of-clinic';

const ANSWERS = ['act', 'not-now', 'not-for-this-patient'] as const satisfies readonly AnswerCount['answer'][];

/** Prompts of the clinic, or of these patients, that were acted on, put off or declined in a period or ever, each by the last of these answers; days end at midnight UTC. */
export function answeredOf(database: Database, therapist: OfClinic, period: ServicePeriod | undefined, of?: readonly string[]) {
  const { from, before } = period ? daysOfPeriod(period) : {};
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
        of && inArray(patientId, [...of]),
        before ? lt(at, new Date(`${before}T00:00:00Z`)) : undefined,
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
