import type { Identifier, Organization, Patient } from 'fhir/r4';
import { limbInWords } from '../../ladder/limb';
import type { Part, PartSide } from '../../parts/measure';
import type { PatientDetails } from '../../record/patient-details';
import type { LimbSide, PartOfSide, Sex } from '../../record/patient-record';
import type { Contact, WorkFacts } from '../../record/work-facts';
import { calendarDay } from '../../units/calendar-day';
import { extendedText, extensionsOf, fhirText, listed, textExtension } from './extensions';
import { OWN } from './own-codes';
import type { BundleOwner } from './own-ids';

const GENDER: Readonly<Record<Sex, Patient['gender']>> = { F: 'female', M: 'male', X: 'other' };

/** Whose the bundle is. */
export const SUBJECT = { reference: 'Patient/subject' } as const;

/** Who measured, sends and keeps: the clinic. */
export const CLINIC = { reference: 'Organization/clinic' } as const;

/** The clinic as an Organization. */
export function clinicResource({ clinic }: BundleOwner): Organization {
  return {
    resourceType: 'Organization',
    id: 'clinic',
    identifier: [{ system: `${OWN}/NamingSystem/clinic`, value: clinic.id }],
    active: true,
    name: fhirText(clinic.name) || 'Clinic',
  };
}

/** The number of a patient as the clinic gave it: a medical record number in a namespace of that clinic. Source: HL7 v2 table 0203, MR. */
function referenceIdentifier(reference: string, { clinic }: BundleOwner): Identifier {
  return {
    use: 'usual',
    type: { coding: [{ system: 'http://terminology.hl7.org/CodeSystem/v2-0203', code: 'MR', display: 'Medical record number' }] },
    system: `${OWN}/clinic/${encodeURIComponent(clinic.id)}/reference`,
    value: fhirText(reference),
  };
}

/** A patient as a Patient. */
export function patientResource(details: PatientDetails, owner: BundleOwner, facts?: WorkFacts): Patient {
  return {
    resourceType: 'Patient',
    id: 'subject',
    extension: listed([
      ...textExtension('diagnosis-group', details.diagnosisGroup),
      ...details.affected.flatMap(({ limb, side }) => textExtension('affected-limb', limbInWords(limb, side))),
      ...(details.affectedParts ?? []).flatMap(({ part, side }) => textExtension('affected-part', `${side} ${part}`)),
      ...textExtension('note', details.note),
    ]),
    identifier: [referenceIdentifier(details.reference, owner)],
    name: details.name ? [{ text: fhirText(details.name) }] : undefined,
    gender: GENDER[details.sex],
    birthDate: details.born,
    communication: [{ language: { coding: [{ system: 'urn:ietf:bcp:47', code: details.language }] }, preferred: true }],
    contact: facts && listed(facts.contacts.map(contactOf)),
    managingOrganization: CLINIC,
  };
}

/** Somebody to ring as Patient.contact; a name is there, because the standard asks for one of its parts. */
function contactOf({ name, relation, phone }: Contact): NonNullable<Patient['contact']>[number] {
  const [said, number] = [fhirText(relation ?? ''), fhirText(phone ?? '')];
  return {
    name: { text: fhirText(name) || 'Contact' },
    ...(said && { relationship: [{ text: said }] }),
    ...(number && { telecom: [{ system: 'phone', value: number }] }),
  };
}

/** The number a patient of a bundle of ours is filed under, whatever a server put beside it. */
export function referenceOf({ identifier = [] }: Patient): string | undefined {
  return identifier.find(({ system }) => system?.startsWith(`${OWN}/`) && system.endsWith('/reference'))?.value;
}

/** The patient of a bundle of ours. */
export function detailsOf(patient: Patient): PatientDetails {
  const parts = extensionsOf(patient, 'affected-part').flatMap(({ valueString }) => partOfSide(valueString ?? ''));
  const sex = (['F', 'M', 'X'] as const).find((one) => GENDER[one] === patient.gender) ?? 'X';
  return {
    reference: referenceOf(patient) ?? '',
    name: patient.name?.[0]?.text ?? null,
    born: calendarDay(patient.birthDate ?? ''),
    sex,
    diagnosisGroup: extendedText(patient, 'diagnosis-group') ?? '',
    affected: extensionsOf(patient, 'affected-limb').map(({ valueString }) => limbSideOf(valueString ?? '')),
    ...(parts.length > 0 ? { affectedParts: parts } : {}),
    language: patient.communication?.[0]?.language.coding?.[0]?.code ?? 'en',
    note: extendedText(patient, 'note'),
  };
}

function limbSideOf(words: string): LimbSide {
  return { limb: words.endsWith('arm') ? 'arm' : 'leg', side: words.startsWith('left') ? 'left' : 'right' };
}

function partOfSide(words: string): PartOfSide[] {
  const found = /^(left|right|middle) (hand|foot|trunk|head)$/.exec(words);
  return found ? [{ part: found[2] as Part, side: found[1] as PartSide }] : [];
}
