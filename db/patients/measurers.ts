import { and, desc, eq, isNotNull, sql } from 'drizzle-orm';
import { type KnownMeasurers, knownMeasurers, type MeasurerMatch } from '@/lib/record/measurer';
import { MEASURER_MATCHES } from '@/lib/record/measurer-schema';
import { getDatabase } from '../client';
import { clinicSetting, user, visit, visitRevision } from '../schema/schema';
import { readyQuery } from '../sql/ready-query';
import type { Therapist } from '../therapist';

/** Key of the clinic setting that holds whose each text is that visits name a measurer by. */
export const MEASURERS_KEY = 'measurers';

/** Whose each text is that names a measurer, as a lead said. */
export async function measurerMatches(therapist: Therapist): Promise<readonly MeasurerMatch[]> {
  const database = await getDatabase();
  const { value, at, id, key, clinicId } = clinicSetting;
  const [latest] = await database
    .select({ value })
    .from(clinicSetting)
    .where(and(eq(clinicId, therapist.clinicId), eq(key, MEASURERS_KEY)))
    .orderBy(desc(at), desc(id))
    .limit(1);
  return MEASURER_MATCHES.parse(latest?.value ?? []);
}

/** Who measures in a clinic, as its records ask it; `words` changes whenever any of it does. */
export type ClinicMeasurers = KnownMeasurers & { readonly colleagues: readonly string[]; readonly words: string };

const { id, name, disabledAt, role } = user;
const peopleOf = readyQuery({ id, name, disabledAt, role }, (database) =>
  database
    .select({ id, name, disabledAt, role })
    .from(user)
    .where(eq(user.clinicId, sql.placeholder('clinicId')))
    .orderBy(id),
);

/** The same with the people of the clinic, as records ask it, and the names of those who may measure now. Two queries. */
export async function measurersOf(therapist: Therapist): Promise<ClinicMeasurers> {
  const database = await getDatabase();
  const [matches, people] = await Promise.all([measurerMatches(therapist), peopleOf(database, { clinicId: therapist.clinicId })]);
  const colleagues = people.filter((one) => one.disabledAt === null && one.role !== 'read-only').map((one) => one.name);
  return { ...knownMeasurers(matches, people), colleagues: colleagues.sort(), words: JSON.stringify([matches, people]) };
}

/** Every text that visits of the clinic, as they stand, name a measurer by, with how many do; the most frequent first. */
export async function measurerTexts(
  therapist: Therapist,
  most = 200,
): Promise<readonly { readonly text: string; readonly visits: number }[]> {
  const database = await getDatabase();
  const { measurer } = visitRevision;
  const visits = sql<number>`count(*)`;
  const rows = await database
    .select({ text: measurer, visits })
    .from(visit)
    .innerJoin(visitRevision, and(eq(visitRevision.visitId, visit.id), eq(visitRevision.number, visit.revision)))
    .where(and(eq(visit.clinicId, therapist.clinicId), isNotNull(measurer)))
    .groupBy(measurer)
    .orderBy(desc(visits), measurer)
    .limit(most);
  return rows.flatMap(({ text, visits: count }) => (text?.trim() ? [{ text, visits: Number(count) }] : []));
}
