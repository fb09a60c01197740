import type { Encounter, Observation, Provenance, Quantity } from 'fhir/r4';
import { bodyMassIndex } from '../../growth/body-mass-index';
import type { FiledVisit, VisitWriting } from '../../record/patient-file';
import { mm } from '../../units/length';
import { kg } from '../../units/mass';
import { fhirText, keptExtension, listed, textExtension } from './extensions';
import { ownConcept } from './own-codes';
import { CLINIC, SUBJECT } from './patient-resource';
import { category, VISIT_TYPE } from './public-codes';
import { typedQuantity, UCUM_SYSTEM } from './typed-quantity';

/** LOINC codes and profiles of the vital signs that are weighed and measured. Source: HL7 FHIR R4, vital signs profiles. */
export const BODY = {
  height: { code: '8302-2', display: 'Body height', profile: 'http://hl7.org/fhir/StructureDefinition/bodyheight' },
  weight: { code: '29463-7', display: 'Body weight', profile: 'http://hl7.org/fhir/StructureDefinition/bodyweight' },
} as const;

/** Body mass index as R4 names it: worked out from height and weight, so that nobody reads it back. Source: HL7 FHIR R4, profile bmi. */
export const BODY_MASS_INDEX = {
  code: '39156-5',
  display: 'Body mass index (BMI) [Ratio]',
  profile: 'http://hl7.org/fhir/StructureDefinition/bmi',
};

type VitalSign = { readonly code: string; readonly display: string; readonly profile: string };

/** Whether what was written of a visit still stands as first written. */
export function statusOf(writings: readonly VisitWriting[]): 'final' | 'amended' {
  return writings.length > 1 ? 'amended' : 'final';
}

/** A visit as an Encounter. A clock time without a zone is no instant: it goes beside the day. */
export function encounterResource(visit: FiledVisit, id: string, number: number): Encounter {
  return {
    resourceType: 'Encounter',
    id,
    extension: listed([
      ...textExtension('number', String(number)),
      ...textExtension('clock-time', visit.time),
      ...textExtension('posture', visit.posture),
      ...textExtension('measurer', visit.measurer),
      ...textExtension('note', visit.note),
      ...textExtension('occasion', visit.occasion),
    ]),
    status: 'finished',
    class: { system: 'http://terminology.hl7.org/CodeSystem/v3-ActCode', code: 'AMB', display: 'ambulatory' },
    type: [VISIT_TYPE],
    subject: SUBJECT,
    period: { start: visit.day },
    serviceProvider: CLINIC,
  };
}

/** Height, weight, the index of both, and single readings of a visit, each as an Observation. */
export function bodyResources(visit: FiledVisit, encounterId: string, status: Observation['status']): Observation[] {
  const vital = (name: string, { code, display, profile }: VitalSign, valueQuantity: Quantity): Observation => ({
    resourceType: 'Observation',
    id: `${encounterId}-${name}`,
    meta: { profile: [profile] },
    extension: listed((visit.keptBody ?? []).filter(({ kind }) => kind === name).map(keptExtension)),
    status,
    category: category('vital-signs'),
    code: { coding: [{ system: 'http://loinc.org', code, display }], text: display },
    ...measuredAt(visit, encounterId),
    valueQuantity,
  });
  const index = indexOf(visit);
  return [
    ...(visit.height ? [vital('height', BODY.height, typedQuantity(visit.height))] : []),
    ...(visit.weight ? [vital('weight', BODY.weight, typedQuantity(visit.weight))] : []),
    ...(index === undefined
      ? []
      : [
          {
            ...vital('bmi', BODY_MASS_INDEX, { value: index, unit: 'kg/m2', system: UCUM_SYSTEM, code: 'kg/m2' }),
            note: [{ text: 'Worked out from height and weight of the same visit.' }],
          },
        ]),
    ...(visit.readings ?? []).map(
      ({ name, length }, index): Observation => ({
        resourceType: 'Observation',
        id: `${encounterId}-reading-${index + 1}`,
        extension: textExtension('number', String(index + 1)),
        status,
        category: category('exam'),
        code: ownConcept('single-reading', fhirText(name)),
        ...measuredAt(visit, encounterId),
        valueQuantity: typedQuantity(length),
      }),
    ),
  ];
}

/** Body mass index of a visit where both were measured, kg/m² to one decimal; undefined otherwise. */
function indexOf({ height, weight }: FiledVisit): number | undefined {
  const index = height && weight ? bodyMassIndex(kg(weight), mm(height.nm) / 10) : undefined;
  return index === undefined ? undefined : Number(index.toFixed(1));
}

/** Whose an Observation is, from which visit and day, and who measured: the clinic, and the person in words. */
export function measuredAt(visit: FiledVisit, encounterId: string) {
  const measurer = visit.measurer ? fhirText(visit.measurer) : '';
  return {
    subject: SUBJECT,
    encounter: { reference: `Encounter/${encounterId}` },
    effectiveDateTime: visit.day,
    performer: [CLINIC, ...(measurer ? [{ display: measurer }] : [])],
  };
}

/** Who wrote a visit and who corrected it, when and why, each writing as a Provenance. */
export function provenanceResources(writings: readonly VisitWriting[], encounterId: string): Provenance[] {
  return writings.map(({ number, author, at, reason }) => ({
    resourceType: 'Provenance',
    id: `${encounterId}-writing-${number}`,
    target: [{ reference: `Encounter/${encounterId}` }],
    recorded: at,
    reason: reason ? [{ text: fhirText(reason) }] : undefined,
    activity: {
      coding: [
        number === 1
          ? { system: 'http://terminology.hl7.org/CodeSystem/v3-DataOperation', code: 'CREATE', display: 'create' }
          : { system: 'http://terminology.hl7.org/CodeSystem/v3-DataOperation', code: 'UPDATE', display: 'revise' },
      ],
    },
    agent: [{ who: { display: fhirText(author) } }],
  }));
}
