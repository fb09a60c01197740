import { and, asc, desc, eq, inArray, sql } from 'drizzle-orm';
import { getDatabase } from '../client';
import { isCurrent } from '../patients/patients';
import { dataImport, importItem, patient, patientRevision, user } from '../schema/schema';
import type { Therapist } from '../therapist';

/** Patients and reasons that are named; the rest is counted. */
const MOST_NAMED = 100;

/** Where the items of an import stand: how many in each state. */
export type ImportCounts = Readonly<Partial<Record<(typeof importItem.$inferSelect)['state'], number>>>;

const importColumns = {
  id: dataImport.id,
  at: dataImport.at,
  byName: user.name,
  fileName: dataImport.fileName,
  form: dataImport.form,
  state: dataImport.state,
};

/** The clinic's latest imports, newest first. */
export async function importsOf(therapist: Therapist, most = 50) {
  const database = await getDatabase();
  return database
    .select(importColumns)
    .from(dataImport)
    .leftJoin(user, eq(user.id, dataImport.by))
    .where(eq(dataImport.clinicId, therapist.clinicId))
    .orderBy(desc(dataImport.at), desc(dataImport.id))
    .limit(most);
}

/** One import: how many of its items stand where, the first patients that came of it, and the first items that need words. */
export async function importWithCounts(therapist: Therapist, importId: string) {
  const database = await getDatabase();
  const own = and(eq(dataImport.clinicId, therapist.clinicId), eq(dataImport.id, importId));
  const [head] = await database.select(importColumns).from(dataImport).leftJoin(user, eq(user.id, dataImport.by)).where(own);
  if (!head) return undefined;
  const items = and(eq(importItem.clinicId, therapist.clinicId), eq(importItem.importId, importId));
  const counted = await database
    .select({ state: importItem.state, items: sql<number>`count(*)` })
    .from(importItem)
    .where(items)
    .groupBy(importItem.state);
  const worded = await database
    .select({ id: importItem.id, reference: importItem.reference, patientId: importItem.patientId, words: importItem.words })
    .from(importItem)
    .where(and(items, sql`${importItem.words} is not null`))
    .orderBy(asc(importItem.position))
    .limit(MOST_NAMED);
  const taken = await database
    .select({ patientId: patient.id, reference: patientRevision.reference })
    .from(importItem)
    .innerJoin(patient, eq(patient.id, importItem.patientId))
    .innerJoin(patientRevision, isCurrent)
    .where(and(items, inArray(importItem.state, ['new', 'extended'])))
    .orderBy(asc(importItem.position))
    .limit(MOST_NAMED);
  const counts: ImportCounts = Object.fromEntries(counted.map((one) => [one.state, Number(one.items)]));
  return { ...head, counts, worded, taken };
}
