import type { BodyStructure, Bundle, Device, DeviceRequest, Encounter, FhirResource, Observation, Patient } from 'fhir/r4';
import type { z } from 'zod';
import type { Ladder, LandmarkReading, Rung } from '../../ladder/ladder';
import { isLandmarkOf } from '../../ladder/limb';
import type { FiledLadder, FiledVisit, PatientFile } from '../../record/patient-file';
import { OCCASIONS, type SingleReading } from '../../record/patient-record';
import { readDay } from '../../units/calendar-day';
import { CAUTION_JSON, EVENT_JSON, FILED_ORDER_JSON, FILED_PIECE_JSON, readJson, ZERO_CHOICE } from '../filed-json';
import { type Extended, extendedText, extensionsOf, keptQuestions } from './extensions';
import { distanceOf } from './limb-places';
import { OWN_SYSTEM, type OwnCode } from './own-codes';
import { detailsOf } from './patient-resource';
import { lengthOf, massOf } from './typed-quantity';
import { BODY } from './visit-resources';

/** Thrown and caught inside this file only; callers see a refusal. */
class BundleRefusal extends Error {}

/** How the reading of a bundle of ours ended; a refusal names the resource. */
export type BundleRead = { readonly kind: 'read'; readonly file: PatientFile } | { readonly kind: 'refused'; readonly reason: string };

/** True for a bundle that this program wrote: its code system is inside. */
export function isOurBundle(bundle: Bundle<FhirResource>): boolean {
  return resourcesOf(bundle).some((one) => one.resourceType === 'CodeSystem' && one.url === OWN_SYSTEM);
}

/**
 * The patient of a bundle that this program wrote, to the typed text; undoes `patientBundle`.
 *
 * Refuses a bundle without its patient and any resource that lacks what it was written with. Who wrote and corrected the visits is not
 * read back: whoever brings the bundle in writes them.
 */
export function readOurBundle(bundle: Bundle<FhirResource>): BundleRead {
  try {
    return { kind: 'read', file: fileOf(resourcesOf(bundle)) };
  } catch (error) {
    if (error instanceof BundleRefusal) return { kind: 'refused', reason: error.message };
    throw error;
  }
}

/** What the entries of a bundle hold; an entry without a resource is passed over. */
export function resourcesOf(bundle: Bundle<FhirResource>): readonly FhirResource[] {
  return (bundle.entry ?? []).flatMap(({ resource }) => resource ?? []);
}

function fileOf(resources: readonly FhirResource[]): PatientFile {
  const all = <Type extends FhirResource['resourceType']>(type: Type) =>
    resources.filter((one): one is Extract<FhirResource, { resourceType: Type }> => one.resourceType === type);
  const [patient] = all('Patient');
  if (!patient) throw new BundleRefusal('The bundle has no Patient.');
  checkPatient(patient);
  const observations = all('Observation');
  const inside: Inside = {
    observations: new Map(observations.map((one) => [`Observation/${one.id}`, one])),
    places: new Map(all('BodyStructure').map((one) => [`BodyStructure/${one.id}`, one])),
  };
  return {
    details: detailsOf(patient),
    visits: all('Encounter').map((encounter) => visitOf(encounter, observations, inside)),
    pieces: all('Device').map((device: Device) => jsonOf(device, 'piece', FILED_PIECE_JSON)),
    orders: all('DeviceRequest').map((request: DeviceRequest) => jsonOf(request, 'order', FILED_ORDER_JSON)),
    events: observations.filter((one) => hasCode(one, 'limb-event')).map((one) => jsonOf(one, 'event', EVENT_JSON)),
    cautions: observations.filter((one) => hasCode(one, 'caution-answer')).map((one) => jsonOf(one, 'caution', CAUTION_JSON)),
    writings: [],
  };
}

type Inside = { readonly observations: ReadonlyMap<string, Observation>; readonly places: ReadonlyMap<string, BodyStructure> };

function checkPatient(patient: Patient): void {
  if (readDay(patient.birthDate ?? '').kind !== 'read') throw new BundleRefusal('The Patient has no day of birth.');
  if (!patient.identifier?.[0]?.value) throw new BundleRefusal('The Patient has no identifier.');
}

function visitOf(encounter: Encounter, observations: readonly Observation[], inside: Inside): FiledVisit {
  const day = readDay(encounter.period?.start ?? '');
  if (day.kind !== 'read') throw new BundleRefusal(`${named(encounter)} has no day.`);
  const own = observations.filter((one) => one.encounter?.reference === `Encounter/${encounter.id}`);
  const height = own.find((one) => one.code.coding?.[0]?.code === BODY.height.code);
  const weight = own.find((one) => one.code.coding?.[0]?.code === BODY.weight.code);
  const readings = own.filter((one) => hasCode(one, 'single-reading')).map(readingOf);
  const keptBody = [height, weight].flatMap((one) => (one ? keptQuestions(one) : []));
  const occasion = OCCASIONS.find((one) => one === extendedText(encounter, 'occasion')) ?? null;
  return {
    keptBody: keptBody.length > 0 ? keptBody : null,
    occasion,
    id: encounter.id ?? '',
    day: day.value,
    time: extendedText(encounter, 'clock-time'),
    posture: extendedText(encounter, 'posture'),
    measurer: extendedText(encounter, 'measurer'),
    note: extendedText(encounter, 'note'),
    height: height ? needed(height, lengthOf(height.valueQuantity)) : null,
    weight: weight ? needed(weight, massOf(weight.valueQuantity)) : null,
    readings: readings.length > 0 ? readings : null,
    ladders: own.filter((one) => hasCode(one, 'girth-ladder')).map((panel) => ladderOf(panel, inside)),
  };
}

function readingOf(observation: Observation): SingleReading {
  return { name: observation.code.text ?? '', length: needed(observation, lengthOf(observation.valueQuantity)) };
}

function ladderOf(panel: Observation, inside: Inside): FiledLadder {
  const members = (panel.hasMember ?? []).map(({ reference }) => {
    const member = inside.observations.get(reference ?? '');
    if (!member) throw new BundleRefusal(`${named(panel)} has a member that is not in the bundle: ${reference}.`);
    return member;
  });
  const fold = members.find((one) => hasCode(one, 'gluteal-fold-height'));
  const choice = extendedText(panel, 'zero-choice');
  const limb = oneOf(panel, 'limb', ['leg', 'arm'] as const);
  return {
    limb,
    side: oneOf(panel, 'side', ['left', 'right'] as const),
    zero: extendedText(panel, 'zero') ?? '',
    direction: oneOf(panel, 'direction', ['up', 'down'] as const),
    unit: oneOf(panel, 'unit', ['in', 'cm'] as const),
    intervalText: extendedText(panel, 'interval'),
    rungs: members.filter((one) => hasCode(one, 'girth-at-place')).map((member) => rungOf(member, inside)),
    landmarks: members.filter((one) => hasCode(one, 'landmark-on-ladder')).map((member) => landmarkOf(member, limb)),
    floorToFold: fold ? needed(fold, lengthOf(fold.valueQuantity)) : null,
    zeroChoice: choice === null ? null : json(panel, choice, ZERO_CHOICE),
  };
}

function rungOf(member: Observation, { places }: Inside): Rung {
  const place = places.get(member.bodySite?.extension?.[0]?.valueReference?.reference ?? '');
  const again = extensionsOf(member, 'second-taping')[0]?.valueQuantity;
  const note = member.note?.[0]?.text;
  const kept = keptQuestions(member);
  return {
    distance: needed(member, lengthOf(distanceOf(place))),
    girth: member.valueQuantity ? needed(member, lengthOf(member.valueQuantity)) : null,
    ...(again && { again: needed(member, lengthOf(again)) }),
    ...(note && { note }),
    ...(kept.length > 0 && { kept }),
  };
}

function landmarkOf(member: Observation, limb: Ladder['limb']): LandmarkReading {
  const landmark = extendedText(member, 'landmark') ?? '';
  if (!isLandmarkOf(limb, landmark)) throw new BundleRefusal(`${named(member)} names no landmark of the ${limb}.`);
  return { landmark, distance: needed(member, lengthOf(member.valueQuantity)) };
}

function hasCode(observation: Observation, code: OwnCode): boolean {
  return observation.code.coding?.some((one) => one.system === OWN_SYSTEM && one.code === code) ?? false;
}

function oneOf<T extends string>(panel: Observation, name: string, words: readonly T[]): T {
  const text = extendedText(panel, name);
  const found = words.find((word) => word === text);
  if (!found) throw new BundleRefusal(`${named(panel)} has no ${name}.`);
  return found;
}

function needed<T>(of: FhirResource, value: T | undefined): T {
  if (value === undefined) throw new BundleRefusal(`${named(of)} has no figure as it was typed.`);
  return value;
}

function jsonOf<T>(of: FhirResource & Extended, name: string, shape: z.ZodType<T>): T {
  const text = extendedText(of, name);
  if (text === null) throw new BundleRefusal(`${named(of)} lacks what it was written with.`);
  return json(of, text, shape);
}

function json<T>(of: FhirResource, text: string, shape: z.ZodType<T>): T {
  const found = readJson(text, shape);
  if (found.kind !== 'read') throw new BundleRefusal(`${named(of)}: ${found.reason}`);
  return found.value;
}

function named({ resourceType, id }: FhirResource): string {
  return `${resourceType}/${id ?? ''}`;
}
