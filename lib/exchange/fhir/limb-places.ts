import type { BodyStructure, Extension, Reference } from 'fhir/r4';
import type { Ladder } from '../../ladder/ladder';
import { limbInWords, placeInWords } from '../../ladder/limb';
import type { TypedLength } from '../../units/length';
import { fhirText } from './extensions';
import { fingerprint } from './own-ids';
import { SUBJECT } from './patient-resource';
import { limbRegion, sideConcept } from './public-codes';
import { typedQuantity } from './typed-quantity';

/** R5 landmarks on an R4 BodyStructure. Source: HL7, Extensions for Using Data Elements from FHIR R5 in FHIR R4. */
const INCLUDED_STRUCTURE = 'http://hl7.org/fhir/5.0/StructureDefinition/extension-BodyStructure.includedStructure';

/** Places of the patient's limbs, each made once however often it was taped: that is what lets another program align visits. */
export type LimbPlaces = {
  readonly placeOf: (ladder: Ladder, distance: TypedLength) => Reference;
  readonly all: () => readonly BodyStructure[];
};

/** An empty register of places. A place is a limb, a side, a zero, a direction and a distance as it was typed. */
export function limbPlaces(): LimbPlaces {
  const places = new Map<string, BodyStructure>();
  return {
    placeOf(ladder, distance) {
      const key = JSON.stringify([ladder.limb, ladder.side, ladder.zero, ladder.direction, distance.text, distance.unit]);
      const known = places.get(key) ?? bodyStructure(`place-${fingerprint(key).slice(0, 16)}`, ladder, distance);
      places.set(key, known);
      return { reference: `BodyStructure/${known.id}` };
    },
    all: () => [...places.values()],
  };
}

function bodyStructure(id: string, ladder: Ladder, distance: TypedLength): BodyStructure {
  const { limb, side, direction } = ladder;
  const way = direction === 'up' ? 'towards the trunk' : 'away from the trunk';
  const zero = fhirText(placeInWords(ladder.zero));
  return {
    resourceType: 'BodyStructure',
    id,
    extension: [
      {
        url: INCLUDED_STRUCTURE,
        extension: [
          { url: 'structure', valueCodeableConcept: limbRegion(limb) },
          { url: 'laterality', valueCodeableConcept: sideConcept(side) },
          {
            url: 'bodyLandmarkOrientation',
            extension: [
              { url: 'landmarkDescription', valueCodeableConcept: { text: zero } },
              { url: 'distanceFromLandmark', extension: [{ url: 'value', valueQuantity: typedQuantity(distance) }] },
            ],
          },
        ],
      },
    ],
    location: limbRegion(limb),
    locationQualifier: [sideConcept(side)],
    description: `${limbInWords(limb, side)}, ${fhirText(distance.text)} ${distance.unit} from the ${zero} ${way}`,
    patient: SUBJECT,
  };
}

/** The Quantity of a place's distance, where it has one. */
export function distanceOf(place: BodyStructure | undefined) {
  const within = (from: readonly Extension[] | undefined, url: string) => from?.find((one) => one.url === url)?.extension;
  const orientation = within(within(place?.extension, INCLUDED_STRUCTURE), 'bodyLandmarkOrientation');
  return within(orientation, 'distanceFromLandmark')?.find(({ url }) => url === 'value')?.valueQuantity;
}
