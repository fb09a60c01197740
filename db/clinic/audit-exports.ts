import { auditEntry } from '../audit/audit-entry';
import type { Therapist } from '../therapist';
import { inTransaction } from '../transaction';

/** Notes in the log that somebody took a patient, or with null the whole clinic, out of the program, and in which form. */
export async function noteExport(therapist: Therapist, patientId: string | null, form: string, at = new Date()): Promise<void> {
  const subject = patientId ? { subjectKind: 'patient', subjectId: patientId } : { subjectKind: 'clinic', subjectId: therapist.clinicId };
  await inTransaction([auditEntry(therapist, { action: 'taken out', ...subject, detail: { form } }, at)]);
}
