import 'server-only';
import { notFound } from 'next/navigation';
import { type LoadedPatient, loadPatient } from '@/app/_record/load-patient';
import { clinicDetailsOf } from '@/db/clinic/clinic-details';
import { clinicTextsOf } from '@/db/clinic/family-texts';
import type { KeptVisit } from '@/db/patients/read-visits';
import type { Therapist } from '@/db/therapist';
import { outsideWornOn } from '@/lib/prompts/outside-in-words';
import type { ClinicDetails } from '@/lib/record/clinic-details';
import type { LimbSide } from '@/lib/record/patient-record';
import { type ClinicTexts, callsAsked } from '@/lib/summary/family/clinic-texts';
import type { FamilyAgainst } from '@/lib/summary/family/read-family-form';

/** What the family form and its action start from: the patient, the visit, the limbs taped at it, the clinic's texts by language. */
export type LoadedFamily = LoadedPatient & {
  readonly visit: KeptVisit;
  readonly limbs: readonly LimbSide[];
  readonly texts: Readonly<Record<string, ClinicTexts>>;
  readonly details: ClinicDetails;
  /** What the form is held against: pieces outside their band, whom to call. */
  readonly against: FamilyAgainst;
};

/** A visit of a patient of the therapist's clinic; any other id is a page that is not there. Affected limbs come first. */
export async function loadFamily(therapist: Therapist, patientId: string, visitId: string): Promise<LoadedFamily> {
  const loaded = await loadPatient(therapist, patientId);
  const visit = loaded.record.visits.find((one) => one.visitId === visitId);
  if (!visit) notFound();
  const affected = (one: LimbSide): number =>
    Number(loaded.record.affected.some((limb) => limb.limb === one.limb && limb.side === one.side));
  const limbs = visit.ladders.map(({ limb, side }) => ({ limb, side })).sort((one, other) => affected(other) - affected(one));
  const [texts, details] = await Promise.all([clinicTextsOf(therapist), clinicDetailsOf(therapist)]);
  const against: FamilyAgainst = {
    outside: (limb) => outsideWornOn(loaded.analysis, limb),
    asks: (language) => callsAsked(texts[language]),
  };
  return { ...loaded, visit, limbs, texts, details, against };
}
