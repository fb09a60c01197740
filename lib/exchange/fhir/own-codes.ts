import type { CodeableConcept, CodeSystem, FhirResource, Identifier } from 'fhir/r4';

/** Where our own codes and extensions live. The name is reserved and never resolves (RFC 2606): the codes travel inside each bundle. */
export const OWN = 'https://rungwise.invalid/fhir';

/** The code system of what has no verified LOINC or SNOMED CT code. */
export const OWN_SYSTEM = `${OWN}/CodeSystem/limb-ladder`;

/** Each code with its display and what it means. */
const CODES = {
  'girth-ladder': ['Girth ladder', 'The girths of one limb, measured at places counted from a zero.'],
  'girth-at-place': ['Girth at a place of a limb', 'Girth measured at a distance from the zero of a ladder.'],
  'landmark-on-ladder': ['Place of a landmark on a ladder', 'Distance of a landmark from the zero of a ladder.'],
  'gluteal-fold-height': ['Height of the gluteal fold', 'Height of the gluteal fold above the floor.'],
  'single-reading': ['Single reading', 'A length with a name, off the ladders.'],
  'limb-volume': ['Limb volume', 'Volume of the measured stretch of a limb, frusta summed.'],
  'limb-event': ['Event of a limb', 'Something after which a limb is no longer the same series.'],
  'caution-answer': ['Answer to a caution', 'The latest answer to a caution card.'],
  'looked-at': ['Looked at', 'Something looked at beside the measures: wear, skin, a scale, a movement.'],
  leaving: ['Leaving', 'Criteria that were gone through before a course of care ended.'],
  'custom-garment': ['Custom compression or pressure garment', 'A garment cut to the figures of one limb.'],
} as const;

export type OwnCode = keyof typeof CODES;

/** A code of ours as a concept; `text` says it for this one thing. */
export function ownConcept(code: OwnCode, text?: string): CodeableConcept {
  return { coding: [{ system: OWN_SYSTEM, code, display: CODES[code][0] }], text: text ?? CODES[code][0] };
}

/** The address of an extension of ours. */
export function ownExtension(name: string): string {
  return `${OWN}/StructureDefinition/${name}`;
}

/** The name of ours that a resource carries; undefined for others'. */
export function ownIdentifier(resource: FhirResource): string | undefined {
  const { identifier } = resource as { readonly identifier?: Identifier | readonly Identifier[] };
  return [identifier ?? []].flat().find(({ system }) => system?.startsWith(`${OWN}/NamingSystem/`))?.value;
}

/** The code system itself, as it is published with every bundle. */
export const OWN_CODE_SYSTEM: CodeSystem = {
  resourceType: 'CodeSystem',
  id: 'limb-ladder',
  url: OWN_SYSTEM,
  version: '1',
  name: 'LimbLadder',
  title: 'Ladders of girths and custom garments',
  status: 'active',
  experimental: false,
  description: 'Codes for what is measured up a limb and for garments made to it, where no verified code of a public system exists.',
  caseSensitive: true,
  content: 'complete',
  concept: Object.entries(CODES).map(([code, [display, definition]]) => ({ code, display, definition })),
};
