import type { Observation } from 'fhir/r4';
import type { Ladder, Rung } from '../../ladder/ladder';
import { limbInWords, placeInWords } from '../../ladder/limb';
import { isNoAnswer, type NoAnswer } from '../../outcome';
import type { FiledLadder, FiledVisit } from '../../record/patient-file';
import type { LimbVolume } from '../../volume/limb-volume';
import { fhirText, jsonExtension, keptExtension, listed, textExtension } from './extensions';
import type { LimbPlaces } from './limb-places';
import { ownConcept, ownExtension } from './own-codes';
import { unlike } from './own-ids';
import { category, limbSite } from './public-codes';
import { typedQuantity, UCUM_SYSTEM } from './typed-quantity';
import { measuredAt } from './visit-resources';

const BODY_SITE = 'http://hl7.org/fhir/StructureDefinition/bodySite';
const SNOMED_LEG_GIRTH = { system: 'http://snomed.info/sct', code: '413171006', display: 'Lower limb circumference' };

/**
 * A ladder as Observations: a panel, a member for each rung, each landmark and the height of the fold; and its volume derived from the panel.
 *
 * A rung is an Observation of its own, because its place, its note and its second taping belong to it alone; a place where nothing was
 * taped has a reason and no value. Source: HL7 FHIR R4, Observation, notes on grouping and on components.
 */
export function ladderResources(
  visit: FiledVisit,
  ladder: FiledLadder,
  encounterId: string,
  number: number,
  status: Observation['status'],
  places: LimbPlaces,
  volume: LimbVolume | NoAnswer | undefined,
): Observation[] {
  const id = `${encounterId}-${ladder.side}-${ladder.limb}`;
  const at: At = { status, category: category('exam'), ...measuredAt(visit, encounterId) };
  const names = unlike(ladder.rungs.map(({ distance }) => BigInt(distance.nm).toString(36)));
  const marks = unlike(ladder.landmarks.map(({ landmark }) => landmark));
  const members = [
    ...ladder.rungs.map((rung, index) => rungResource(`${id}-rung-${names[index]}`, at, ladder, rung, places)),
    ...ladder.landmarks.map(
      ({ landmark, distance }, index): Observation => ({
        resourceType: 'Observation',
        id: `${id}-${marks[index]}`,
        extension: textExtension('landmark', landmark),
        ...at,
        code: ownConcept('landmark-on-ladder', placeInWords(landmark)),
        valueQuantity: typedQuantity(distance),
      }),
    ),
    ...(ladder.floorToFold
      ? [
          {
            resourceType: 'Observation' as const,
            id: `${id}-fold-height`,
            ...at,
            code: ownConcept('gluteal-fold-height'),
            valueQuantity: typedQuantity(ladder.floorToFold),
          },
        ]
      : []),
  ];
  const panel = panelResource(id, at, ladder, members, number);
  return [panel, ...members, ...volumeResource(id, at, ladder, volume)];
}

type At = Pick<Observation, 'status' | 'category' | 'subject' | 'encounter' | 'effectiveDateTime' | 'performer'>;

function panelResource(id: string, at: At, ladder: FiledLadder, members: readonly Observation[], number: number): Observation {
  return {
    resourceType: 'Observation',
    id,
    extension: listed([
      ...textExtension('number', String(number)),
      ...textExtension('limb', ladder.limb),
      ...textExtension('side', ladder.side),
      ...textExtension('zero', ladder.zero),
      ...textExtension('direction', ladder.direction),
      ...textExtension('unit', ladder.unit),
      ...textExtension('interval', ladder.intervalText),
      ...jsonExtension('zero-choice', ladder.zeroChoice),
    ]),
    ...at,
    code: ownConcept('girth-ladder', `Girth ladder, ${limbInWords(ladder.limb, ladder.side)}`),
    bodySite: limbSite(ladder.limb, ladder.side),
    ...(members.length === 0
      ? { dataAbsentReason: notTaped }
      : { hasMember: members.map((member) => ({ reference: `Observation/${member.id}` })) }),
  };
}

const notTaped = {
  coding: [{ system: 'http://terminology.hl7.org/CodeSystem/data-absent-reason', code: 'not-performed', display: 'Not Performed' }],
};

function rungResource(id: string, at: At, ladder: Ladder, rung: Rung, places: LimbPlaces): Observation {
  const code = ownConcept('girth-at-place');
  return {
    resourceType: 'Observation',
    id,
    extension: listed([
      ...(rung.again ? [{ url: ownExtension('second-taping'), valueQuantity: typedQuantity(rung.again) }] : []),
      ...(rung.kept ?? []).map(keptExtension),
    ]),
    ...at,
    code: ladder.limb === 'leg' ? { ...code, coding: [...(code.coding ?? []), SNOMED_LEG_GIRTH] } : code,
    bodySite: {
      extension: [{ url: BODY_SITE, valueReference: places.placeOf(ladder, rung.distance) }],
      ...limbSite(ladder.limb, ladder.side),
    },
    ...(rung.girth ? { valueQuantity: typedQuantity(rung.girth) } : { dataAbsentReason: notTaped }),
    note: rung.note && fhirText(rung.note) ? [{ text: fhirText(rung.note) }] : undefined,
  };
}

function volumeResource(panelId: string, at: At, ladder: Ladder, volume: LimbVolume | NoAnswer | undefined): Observation[] {
  if (volume === undefined) return [];
  const answer = isNoAnswer(volume)
    ? {
        dataAbsentReason: {
          coding: [
            { system: 'http://terminology.hl7.org/CodeSystem/data-absent-reason', code: 'not-applicable', display: 'Not Applicable' },
          ],
          text: volume.noAnswer,
        },
      }
    : {
        valueQuantity: { value: rounded(volume.volumeMl), unit: 'mL', system: UCUM_SYSTEM, code: 'mL' },
        note: [{ text: `Standard error of measurement ${rounded(volume.sdMl)} mL; ${rounded(volume.lengthMm / 10)} cm of the limb.` }],
      };
  return [
    {
      resourceType: 'Observation',
      id: `${panelId}-volume`,
      ...at,
      code: ownConcept('limb-volume'),
      bodySite: limbSite(ladder.limb, ladder.side),
      method: { text: 'Frusta of cones between neighbouring girths, summed' },
      ...answer,
      derivedFrom: [{ reference: `Observation/${panelId}` }],
    },
  ];
}

/** A computed figure to a tenth: its own error is larger. */
function rounded(value: number): number {
  return Math.round(value * 10) / 10;
}
