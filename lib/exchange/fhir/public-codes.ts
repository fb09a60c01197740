import type { CodeableConcept, Coding } from 'fhir/r4';
import { type LimbKind, limbInWords, type Side } from '../../ladder/limb';
import type { WornPlace } from '../../record/patient-record';

const SNOMED = 'http://snomed.info/sct';

/**
 * Limb and side as SNOMED CT names them. Source: SNOMED CT International, body structure; codes and names as published in open
 * implementation guides (legs in an HL7 concept map of imaging protocols, all four in an openEHR guide of Sweden), no browser was at hand.
 */
const LIMB_CODES: Readonly<Record<`${Side} ${LimbKind}`, readonly [code: string, display: string]>> = {
  'left leg': ['32153003', 'Structure of left lower limb'],
  'right leg': ['62175007', 'Structure of right lower limb'],
  'left arm': ['80768000', 'Structure of left upper limb'],
  'right arm': ['6921000', 'Structure of right upper limb'],
};

const REGIONS = { leg: ['61685007', 'Lower limb structure'], arm: ['53120007', 'Upper limb structure'] } as const;
const SIDES = { left: ['419161000', 'Unilateral left'], right: ['419465000', 'Unilateral right'] } as const;

function snomed([code, display]: readonly [string, string]): Coding {
  return { system: SNOMED, code, display };
}

/** A limb with its side as a body site; trunk and head in words. */
export function limbSite(limb: WornPlace['limb'], side: WornPlace['side']): CodeableConcept {
  if (limb === 'trunk' || limb === 'head' || side === 'middle') return { text: limbInWords(limb, side) };
  return { coding: [snomed(LIMB_CODES[`${side} ${limb}`])], text: limbInWords(limb, side) };
}

/** A limb without its side. */
export function limbRegion(limb: LimbKind): CodeableConcept {
  return { coding: [snomed(REGIONS[limb])], text: limb };
}

/** A side alone. Source: HL7 FHIR R4, value set bodystructure-relative-location. */
export function sideConcept(side: Side): CodeableConcept {
  return { coding: [snomed(SIDES[side])], text: side };
}

/** The type of every visit. Source: SNOMED CT 185349003, as open FHIR test data carry it. */
export const VISIT_TYPE: CodeableConcept = { coding: [snomed(['185349003', 'Encounter for check up'])], text: 'Measuring visit' };

const CATEGORIES = { 'vital-signs': 'Vital Signs', exam: 'Exam', survey: 'Survey', therapy: 'Therapy' } as const;

/** The category of an Observation. Source: HL7 FHIR R4, code system observation-category. */
export function category(code: keyof typeof CATEGORIES): [CodeableConcept] {
  const system = 'http://terminology.hl7.org/CodeSystem/observation-category';
  return [{ coding: [{ system, code, display: CATEGORIES[code] }] }];
}
