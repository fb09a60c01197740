import { and, desc, eq } from 'drizzle-orm';
import type { CoverageRule } from '@/lib/record/coverage';
import { coverageRulesSchema } from '@/lib/record/coverage-schema';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { auditEntry } from '../audit/audit-entry';
import { getDatabase } from '../client';
import { invalidateWork } from '../patients/invalidate-work';
import { patientHead } from '../patients/patients';
import { patientCoverage } from '../schema/schema';
import { assertMayWrite, type Therapist } from '../therapist';
import { inTransaction } from '../transaction';
import { settingsOf } from './clinic';

/** The setting that holds the clinic's coverage rules. */
export const COVERAGE_KEY = 'coverage rules';

/** Which rule holds for a patient, as it was last written down. */
export type KeptCoverage = { readonly ruleId: string | null; readonly from: CalendarDay; readonly note: string | null; readonly at: Date };

/** The clinic's coverage rules; none until it writes some. */
export async function coverageRulesOf(therapist: Therapist): Promise<readonly CoverageRule[]> {
  const stored = (await settingsOf(therapist)).get(COVERAGE_KEY)?.value;
  return coverageRulesSchema.parse(stored ?? []);
}

/** The coverage a patient has now; undefined before any was written down. */
export async function coverageOf(therapist: Therapist, patientId: string): Promise<KeptCoverage | undefined> {
  const database = await getDatabase();
  const [latest] = await database
    .select({ ruleId: patientCoverage.rule, from: patientCoverage.from, note: patientCoverage.note, at: patientCoverage.at })
    .from(patientCoverage)
    .where(and(eq(patientCoverage.clinicId, therapist.clinicId), eq(patientCoverage.patientId, patientId)))
    .orderBy(desc(patientCoverage.at), desc(patientCoverage.id))
    .limit(1);
  return latest;
}

/** Writes down which rule holds for a patient from a day on, by adding a row. False when the clinic has no such patient. */
export async function setCoverage(
  therapist: Therapist,
  patientId: string,
  entry: { readonly ruleId: string | null; readonly from: CalendarDay; readonly note: string | null },
  at = new Date(),
): Promise<boolean> {
  assertMayWrite(therapist);
  if (!(await patientHead(therapist, patientId))) return false;
  const { ruleId, from, note } = entry;
  const row = { id: crypto.randomUUID(), clinicId: therapist.clinicId, patientId, rule: ruleId, from, note, by: therapist.id, at };
  await inTransaction([
    (tx) => tx.insert(patientCoverage).values(row).returning({ id: patientCoverage.id }),
    invalidateWork(therapist, patientId),
    auditEntry(therapist, { action: 'coverage set', subjectKind: 'patient', subjectId: patientId, detail: { rule: ruleId, from } }, at),
  ]);
  return true;
}
