import type { DemoPatient } from '@/app/_commands/demonstration/demo-patient';
import type { PatientRecord } from '@/lib/record/patient-record';

/** A person of the demonstration as the rules see them. */
export function demoRecord({ details, visits, pieces }: DemoPatient): PatientRecord {
  return { reference: details.reference, born: details.born, sex: details.sex, affected: details.affected, visits, pieces };
}
