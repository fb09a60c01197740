import { and, asc, eq, gt, inArray, like, max, type SQL, sql } from 'drizzle-orm';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { getDatabase } from '../client';
import { patient, patientRevision, visit } from '../schema/schema';
import type { Database } from '../sql/database';
import { readEach } from '../sql/read-each';
import { patientsHolding } from '../sql/search-part';
import type { Therapist } from '../therapist';
import { headColumns, isCurrent, type PatientHead } from './patients';
import { REVOKED } from './revoked';

/** One page of a list of patients, the ids of those on it that cannot be read, and how many there are in all. */
export type PatientPage = {
  readonly rows: readonly PatientHead[];
  readonly damaged: readonly string[];
  readonly total: number;
  readonly page: number;
  readonly pages: number;
};

const PAGE_SIZE = 50;
/** Up to so many places where a word stands, its patients are read one by one; a word that stands at more is met soon on a walk. */
const FEW = 1000;
/** Of many words searched for at once so many are tried, the longest first. */
const WORDS_TRIED = 4;

/**
 * Patients of the clinic whose reference or name holds the words searched for, by reference. Pages count from 1.
 *
 * Costs the patients who are found, not those of the clinic, unless every word searched for is common: then the patients are walked by
 * reference. When the finds do not fill the first page they are all there are, and are looked for once.
 */
export async function findPatients(therapist: Therapist, search = '', page = 1, pageSize = PAGE_SIZE): Promise<PatientPage> {
  const database = await getDatabase();
  const words = search.toLowerCase().split(/\s+/).map(escaped).filter(Boolean);
  const holding = words.map((word) => like(patient.searchText, `%${word}%`));
  const wanted = and(await amongFew(database, therapist, words), gt(patient.revision, REVOKED), ...holding);
  const inOrder = [asc(patient.referenceKey), asc(patient.id)];
  const rowsOn = (at: number) =>
    database
      .select(headColumns)
      .from(patient)
      .innerJoin(patientRevision, isCurrent)
      .where(wanted)
      .orderBy(...inOrder)
      .limit(pageSize)
      .offset((at - 1) * pageSize);
  const pageOf = async (at: number) => {
    const { read, failed } = await readEach([at], async ([number = 1]) => [await rowsOn(number)]);
    if (failed.length === 0) return { rows: read.flat(), damaged: [] };
    const ids = await database
      .select({ id: patient.id })
      .from(patient)
      .where(wanted)
      .orderBy(...inOrder)
      .limit(pageSize)
      .offset((at - 1) * pageSize);
    const each = await readEach(
      ids.map(({ id }) => id),
      (some) => headsOf(therapist, some),
    );
    return { rows: each.read, damaged: each.failed };
  };
  const first = await pageOf(1);
  const found = first.rows.length + first.damaged.length;
  if (found < pageSize) return { ...first, total: found, page: 1, pages: 1 };
  const total = await database.$count(patient, wanted);
  const pages = Math.max(1, Math.ceil(total / pageSize));
  const at = Math.min(Math.max(1, page), pages);
  return { ...(at === 1 ? first : await pageOf(at)), total, page: at, pages };
}

/**
 * Of the clinic, and among the patients who hold one of the words where they are few.
 *
 * The clinic is then asked for in a form that no index answers, so that the patients are gone to by their ids and not walked by reference.
 */
async function amongFew(database: Database, { clinicId }: Therapist, words: readonly string[]): Promise<SQL | undefined> {
  const longestFirst = [...words].sort((one, other) => other.length - one.length).slice(0, WORDS_TRIED);
  for (const word of longestFirst) {
    const holding = patientsHolding(clinicId, word);
    const [places] = await database.select({ many: sql`count(*)`.mapWith(Number) }).from(sql`(${holding} limit ${FEW + 1}) as places`);
    if ((places?.many ?? 0) <= FEW) return and(sql`${patient.id} in (${holding})`, eq(sql`${patient.clinicId} || ''`, clinicId));
  }
  return eq(patient.clinicId, clinicId);
}

/** The heads of these patients of the clinic; ids of others are left out. */
export async function headsOf(therapist: Therapist, patientIds: readonly string[]): Promise<readonly PatientHead[]> {
  if (patientIds.length === 0) return [];
  const database = await getDatabase();
  return database
    .select(headColumns)
    .from(patient)
    .innerJoin(patientRevision, isCurrent)
    .where(and(eq(patient.clinicId, therapist.clinicId), inArray(patient.id, [...patientIds])));
}

/** The last visit day of each of these patients; a patient without visits is not in the answer. */
export async function lastVisitDays(therapist: Therapist, patientIds: readonly string[]): Promise<ReadonlyMap<string, CalendarDay>> {
  if (patientIds.length === 0) return new Map();
  const database = await getDatabase();
  const rows = await database
    .select({ patientId: visit.patientId, day: max(visit.day) })
    .from(visit)
    .where(and(eq(visit.clinicId, therapist.clinicId), inArray(visit.patientId, [...patientIds]), gt(visit.revision, REVOKED)))
    .groupBy(visit.patientId);
  return new Map(rows.flatMap(({ patientId, day }) => (day ? [[patientId, day as CalendarDay] as const] : [])));
}

/** Text searched for as it is: `_` and `%` stand for themselves only by being left out. */
export function escaped(word: string): string {
  return word.replace(/[%_\\]/g, '');
}
