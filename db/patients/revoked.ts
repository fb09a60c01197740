import { and, eq, gt, sql } from 'drizzle-orm';
import { patient } from '../schema/schema';

/**
 * The revision of a head that counts for nothing: it was brought in by an import and taken back. No revision has this number, so that
 * nothing joins it; what was written stays where it was, and the log says who took it back.
 */
export const REVOKED = 0;

/** The condition of a ready query of one patient of the clinic, not taken back: its values are `patientId` and `clinicId`. */
export function isAskedPatient() {
  return and(
    eq(patient.id, sql.placeholder('patientId')),
    eq(patient.clinicId, sql.placeholder('clinicId')),
    gt(patient.revision, sql`${sql.raw(String(REVOKED))}`),
  );
}
