import { and, desc, eq, isNotNull, sql } from 'drizzle-orm';
import type { ServicePeriod } from '@/lib/service/service-period';
import { answerOutcome, patient } from '../schema/schema';
import type { Database } from '../sql/database';
import type { Therapist } from '../therapist';
import { isOfAnswers, OF_PATIENT } from './answer-counts';

/** Figures of given answers whose rows can be listed. */
export const ANSWER_FIGURES = ['verdicts', 'ranges', 'chances', 'outgrow'] as const;
export type AnswerFigure = (typeof ANSWER_FIGURES)[number];

/** One given answer behind a figure, with what came of it; `of` names the answer, a piece or a verdict. */
export type AnswerRow = {
  readonly patientId: string;
  readonly day: string;
  readonly of: string;
  readonly came: string;
  readonly probability: number | null;
  readonly changed: boolean | null;
  readonly miss: number | null;
  readonly daysOff: number | null;
  readonly total: number;
};

/** The answers behind a figure, the newest first, at most so many: `of` is a verdict (`baseline as-expected`), what it was against, a tenth, or what came. */
export async function answerRows(
  database: Database,
  therapist: Therapist,
  figure: AnswerFigure,
  of: string | undefined,
  period: ServicePeriod,
  most: number,
): Promise<readonly AnswerRow[]> {
  const { patientId, day, against, word, came, tenth, changed, probability, miss, piece, daysOff, kind } = answerOutcome;
  const name = sql<string>`case when ${kind} = 'outlook' then ${piece} else ${against} || ' ' || ${word} end`;
  const wanted = {
    verdicts: of === undefined ? undefined : eq(name, of),
    ranges: and(isNotNull(miss), of === undefined ? undefined : eq(sql`${against}`, of)),
    chances: and(isNotNull(changed), isNotNull(tenth), of === undefined ? undefined : eq(sql`cast(${tenth} as text)`, of)),
    outgrow: of === undefined ? undefined : eq(sql`${came}`, of),
  }[figure];
  return database
    .select({ patientId, day, of: name, came, probability, changed, miss, daysOff, total: sql`count(*) over ()`.mapWith(Number) })
    .from(answerOutcome)
    .innerJoin(patient, OF_PATIENT)
    .where(and(isOfAnswers(therapist, period, figure === 'outgrow' ? 'outlook' : 'verdict'), wanted))
    .orderBy(desc(day), answerOutcome.id)
    .limit(most);
}
