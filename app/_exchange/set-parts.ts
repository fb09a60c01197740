import { createHash, randomBytes } from 'node:crypto';
import type { OutgoingPatient } from '@/db/exchange/patient-files';
import { analysePatient, type PatientAnalysis } from '@/lib/analysis/analyse-patient';
import type { SetPart } from '@/lib/exchange/set/set-table';
import type { SetStyle } from '@/lib/exchange/set/write-set';
import type { Policy } from '@/lib/limits/policy';
import { recordOfFile } from '@/lib/record/patient-file';
import type { CalendarDay } from '@/lib/units/calendar-day';

/** A rank of patients that holds within one export: by it they stand in no order that anybody knows from elsewhere. */
export function randomRank(): (patientId: string) => string {
  const key = randomBytes(32);
  return (patientId) => createHash('sha256').update(key).update(patientId).digest('hex');
}

/** Turns a patient into a part of one export. */
export type PartOf = (patient: OutgoingPatient) => SetPart;

/**
 * Parts of one export: subjects go out under the clinic's reference, or for research under an id that holds within this export only.
 *
 * The id is a hash with a key that is made for the export and kept nowhere: nobody can tell who it was, or join two exports by it.
 */
export function partsOf({ research }: SetStyle, policy: Policy, today: CalendarDay): PartOf {
  const key = randomBytes(32);
  return ({ patientId, file }) => {
    let analysis: PatientAnalysis | undefined;
    const id = createHash('sha256').update(key).update(patientId).digest('hex').slice(0, 12);
    return {
      subjectId: research ? `S-${id}` : file.details.reference,
      file,
      analysis: () => (analysis ??= analysePatient(recordOfFile(file), policy, today)),
    };
  };
}
