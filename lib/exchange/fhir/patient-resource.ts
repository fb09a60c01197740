import type { Patient } from 'fhir/r4';
import { limbInWords } from '../../ladder/limb';
import type { PatientDetails } from '../../record/patient-details';
import type { LimbSide, Sex } from '../../record/patient-record';
import { calendarDay } from '../../units/calendar-day';
import { extendedText, extensionsOf, fhirText, listed, textExtension } from './extensions';
import { OWN } from './own-codes';

const GENDER: Readonly<Record<Sex, Patient['gender']>> = { F: 'female', M: 'male', X: 'other' };

/** Whose the bundle is. */
export const SUBJECT = { reference: 'Patient/subject' } as const;

/** A patient as a Patient. */
export function patientResource(details: PatientDetails): Patient {
  return {
    resourceType: 'Patient',
    id: 'subject',
    extension: listed([
      ...textExtension('diagnosis-group', details.diagnosisGroup),
      ...details.affected.flatMap(({ limb, side }) => textExtension('affected-limb', limbInWords(limb, side))),
      ...textExtension('note', details.note),
    ]),
    identifier: [{ system: `${OWN}/NamingSystem/reference`, value: fhirText(details.reference) }],
    name: details.name ? [{ text: fhirText(details.name) }] : undefined,
    gender: GENDER[details.sex],
    birthDate: details.born,
    communication: [{ language: { coding: [{ system: 'urn:ietf:bcp:47', code: details.language }] }, preferred: true }],
  };
}

/** The patient of a bundle of ours. */
export function detailsOf(patient: Patient): PatientDetails {
  const sex = (['F', 'M', 'X'] as const).find((one) => GENDER[one] === patient.gender) ?? 'X';
  return {
    reference: patient.identifier?.[0]?.value ?? '',
    name: patient.name?.[0]?.text ?? null,
    born: calendarDay(patient.birthDate ?? ''),
    sex,
    diagnosisGroup: extendedText(patient, 'diagnosis-group') ?? '',
    affected: extensionsOf(patient, 'affected-limb').map(({ valueString }) => limbSideOf(valueString ?? '')),
    language: patient.communication?.[0]?.language.coding?.[0]?.code ?? 'en',
    note: extendedText(patient, 'note'),
  };
}

function limbSideOf(words: string): LimbSide {
  return { limb: words.endsWith('arm') ? 'arm' : 'leg', side: words.startsWith('left') ? 'left' : 'right' };
}
