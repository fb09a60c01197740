import { and, eq, inArray } from 'drizzle-orm';
import type { PatientAnalysis } from '@/lib/analysis/analyse-patient';
import { type ServiceCase, serviceCases } from '@/lib/analysis/service-cases';
import type { Statement } from '../audit/statement';
import { getDatabase } from '../client';
import { serviceCase } from '../schema/schema';
import type { Therapist } from '../therapist';
import { areSame } from './are-same';

/** One case as stored. */
export type StoredCase = typeof serviceCase.$inferSelect;

type Owner = { readonly clinicId: string; readonly patientId: string };

/** Rows of one statement: PostgreSQL and SQLite bind a bounded number of values. */
const AT_ONCE = 500;

/** The stored cases of these patients. */
export async function casesOf(therapist: Therapist, patientIds: readonly string[]): Promise<readonly StoredCase[]> {
  const database = await getDatabase();
  const { clinicId, patientId } = serviceCase;
  return database
    .select()
    .from(serviceCase)
    .where(and(eq(clinicId, therapist.clinicId), inArray(patientId, [...patientIds])));
}

/** What puts in place of a patient's stored cases those of today; nothing where they are the same already. */
export function renewCases(owner: Owner, analysis: PatientAnalysis, stored: readonly StoredCase[]): readonly Statement[] {
  const rows = serviceCases(analysis).map((one, index) => rowOf(owner, one, index));
  if (areSame(rows, stored)) return [];
  const gone: Statement = (tx) =>
    tx.delete(serviceCase).where(eq(serviceCase.patientId, owner.patientId)).returning({ id: serviceCase.id });
  const steps: Statement[] = stored.length > 0 ? [gone] : [];
  for (let from = 0; from < rows.length; from += AT_ONCE)
    steps.push((tx) =>
      tx
        .insert(serviceCase)
        .values(rows.slice(from, from + AT_ONCE))
        .returning({ id: serviceCase.id }),
    );
  return steps;
}

function rowOf(owner: Owner, one: ServiceCase, index: number): StoredCase {
  return { ...{ whole: null, some: null, phase: null, lost: null, kept: null }, ...one, ...owner, id: `${owner.patientId} ${index}` };
}
