import type { CodeSystem, Coding, Observation } from 'fhir/r4';
import { MEASURES } from '../../parts/catalogue';
import { isTakenOn, measureInWords, PARTS, type PartSide, partOfSideInWords } from '../../parts/measure';
import { measureTaken, withOwn } from '../../parts/own-measure';
import { OWN_MEASURE } from '../../parts/own-measure-schema';
import type { FiledVisit } from '../../record/patient-file';
import type { NamedMeasure } from '../../record/patient-record';
import type { TypedLength } from '../../units/length';
import { readJson } from '../filed-json';
import { extendedText, extensionsOf, fhirText, jsonExtension, keptExtension, keptQuestions, textExtension } from './extensions';
import { OWN, ownExtension } from './own-codes';
import { category } from './public-codes';
import { lengthOf, typedQuantity } from './typed-quantity';
import { measuredAt } from './visit-resources';

/** The code system of named measures: the ids of the catalogue. */
const MEASURE_SYSTEM = `${OWN}/CodeSystem/named-measure`;

/** Ids of measures that a clinic added itself: each Observation carries its definition, and no list of them is complete. */
const OWN_MEASURE_SYSTEM = `${OWN}/CodeSystem/own-measure`;

/**
 * LOINC codes of measures whose definition is the same. Source: LOINC as the value sets of HL7 FHIR (headcircum) and open implementation
 * guides of vital signs carry it. Codes that belong to a measuring protocol of a study (hip, waist of PhenX) say more than is known here.
 */
const LOINC: Readonly<Record<string, readonly [code: string, display: string]>> = {
  'head-girth': ['8287-5', 'Head Occipital-frontal circumference by Tape measure'],
  'neck-girth': ['56074-8', 'Circumference Neck'],
  'waist-girth-navel': ['8280-0', 'Waist Circumference at umbilicus by Tape measure'],
};

/** Every named measure of a visit as an Observation: our code, a public one beside it where there is one, and the figure as typed. */
export function measureResources(visit: FiledVisit, encounterId: string, status: Observation['status']): Observation[] {
  return (visit.measures ?? []).flatMap((taken, index): Observation[] => {
    const measure = measureTaken(taken);
    if (!measure) return [];
    const loinc = LOINC[measure.id];
    const coding: Coding[] = [
      { system: taken.own ? OWN_MEASURE_SYSTEM : MEASURE_SYSTEM, code: measure.id, display: measure.name },
      ...(loinc ? [{ system: 'http://loinc.org', code: loinc[0], display: loinc[1] }] : []),
    ];
    const note = taken.note ? fhirText(taken.note) : '';
    return [
      {
        resourceType: 'Observation',
        id: `${encounterId}-${taken.side}-${measure.id}`,
        extension: [
          ...textExtension('number', String(index + 1)),
          ...textExtension('part', taken.part),
          ...textExtension('side', taken.side),
          ...jsonExtension('own-measure', taken.own),
          ...(taken.again ? [{ url: ownExtension('second-taping'), valueQuantity: typedQuantity(taken.again) }] : []),
          ...(taken.kept ?? []).map(keptExtension),
        ],
        status,
        category: category('exam'),
        code: { coding, text: measureInWords(measure, taken.side) },
        bodySite: { text: partOfSideInWords(taken.part, taken.side) },
        ...measuredAt(visit, encounterId),
        valueQuantity: typedQuantity(taken.length),
        ...(note === '' ? {} : { note: [{ text: note }] }),
      },
    ];
  });
}

function isMeasureSystem(system: string | undefined): boolean {
  return system === MEASURE_SYSTEM || system === OWN_MEASURE_SYSTEM;
}

/** Whether an Observation is a named measure of ours. */
export function isNamedMeasure({ code }: Observation): boolean {
  return code.coding?.some(({ system }) => isMeasureSystem(system)) ?? false;
}

/** A named measure read back, with its figure; undefined where part, side and measure do not go together. */
export function namedMeasureOf(observation: Observation, length: TypedLength): NamedMeasure | undefined {
  const defined = extendedText(observation, 'own-measure');
  const read = defined === null ? undefined : readJson(defined, OWN_MEASURE);
  if (read?.kind === 'refused') return undefined;
  const id = observation.code.coding?.find(({ system }) => isMeasureSystem(system))?.code ?? '';
  const measure = measureTaken({ measure: id, own: read?.value });
  const part = PARTS.find((one) => one === extendedText(observation, 'part'));
  const side = (['left', 'right', 'middle'] as const).find((one): one is PartSide => one === extendedText(observation, 'side'));
  if (!measure || !part || !side || (measure.part !== part && measure.alsoOf !== part) || !isTakenOn(measure, side)) return undefined;
  const note = observation.note?.[0]?.text;
  const again = lengthOf(extensionsOf(observation, 'second-taping')[0]?.valueQuantity);
  const kept = keptQuestions(observation);
  return {
    part,
    side,
    measure: measure.id,
    ...withOwn(measure),
    length,
    ...(again ? { again } : {}),
    ...(note ? { note } : {}),
    ...(kept.length > 0 ? { kept } : {}),
  };
}

/** The code system itself: published with every bundle that has a named measure. */
export const MEASURE_CODE_SYSTEM: CodeSystem = {
  resourceType: 'CodeSystem',
  id: 'named-measure',
  url: MEASURE_SYSTEM,
  version: '1',
  name: 'NamedMeasure',
  title: 'Named measures of hand, foot, trunk and head',
  status: 'active',
  experimental: false,
  description: 'Girths, lengths, heights and breadths that garments are cut to, each with where the tape goes.',
  caseSensitive: true,
  content: 'complete',
  concept: MEASURES.map(({ id, name, definition }) => ({ code: id, display: name, definition })),
};
