import { and, eq, gt, gte, isNotNull, lt, type SQLWrapper, sql } from 'drizzle-orm';
import { daysOfPeriod, type ServicePeriod } from '@/lib/service/service-period';
import type { RightCounts } from '@/lib/service/were-we-right';
import type { OutlookCame, VerdictCame } from '@/lib/service/what-came';
import { REVOKED } from '../patients/revoked';
import { answerOutcome, patient } from '../schema/schema';
import type { Database } from '../sql/database';
import type { Therapist } from '../therapist';

const N = sql`count(*)`.mapWith(Number);
const by = (...columns: readonly SQLWrapper[]) => columns.map((column) => sql`${column}`);

/** Outcomes of answers to visits of a period, of one kind; none of a patient who was taken back with an import. */
export function isOfAnswers(therapist: Therapist, period: ServicePeriod, kind: 'verdict' | 'outlook') {
  const { from, before } = daysOfPeriod(period);
  return and(
    eq(answerOutcome.clinicId, therapist.clinicId),
    eq(answerOutcome.kind, kind),
    lt(answerOutcome.day, before),
    from ? gte(answerOutcome.day, from) : undefined,
  );
}

/** How an outcome finds its patient, who still counts. */
export const OF_PATIENT = and(eq(patient.id, answerOutcome.patientId), gt(patient.revision, REVOKED));

/** What came of given answers, counted by the database in three passes over their outcomes. */
export async function rightCounts(database: Database, therapist: Therapist, period: ServicePeriod): Promise<RightCounts> {
  const { against, word, came, tenth, changed, probability, miss, earlyKept, daysOff } = answerOutcome;
  const came01 = sql`case when ${changed} then 1.0 else 0.0 end`;
  const isDecided = sql`${changed} is not null and ${probability} is not null`;
  const verdicts = await database
    .select({
      ...{ against, word, came, tenth, changed, n: N },
      stated: sql`coalesce(sum(case when ${isDecided} then ${probability} else 0 end), 0)`.mapWith(Number),
      square:
        sql`coalesce(sum(case when ${isDecided} then (${probability} - ${came01}) * (${probability} - ${came01}) else 0 end), 0)`.mapWith(
          Number,
        ),
    })
    .from(answerOutcome)
    .innerJoin(patient, OF_PATIENT)
    .where(isOfAnswers(therapist, period, 'verdict'))
    .groupBy(...by(against, word, came, tenth, changed));
  const misses = await database
    .select({ against, miss, n: N })
    .from(answerOutcome)
    .innerJoin(patient, OF_PATIENT)
    .where(and(isOfAnswers(therapist, period, 'verdict'), isNotNull(miss)))
    .groupBy(...by(against, miss));
  const outlooks = await database
    .select({ came, earlyKept, daysOff, n: N })
    .from(answerOutcome)
    .innerJoin(patient, OF_PATIENT)
    .where(isOfAnswers(therapist, period, 'outlook'))
    .groupBy(...by(came, earlyKept, daysOff));
  return {
    verdicts: verdicts.flatMap((row) =>
      row.against === null || row.word === null ? [] : [{ ...row, against: row.against, word: row.word, came: row.came as VerdictCame }],
    ),
    misses: misses.flatMap((row) => (row.against === null || row.miss === null ? [] : [{ ...row, against: row.against, miss: row.miss }])),
    outlooks: outlooks.map((row) => ({ ...row, came: row.came as OutlookCame })),
  };
}
