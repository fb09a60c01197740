import type { Bundle, Encounter, EpisodeOfCare, FhirResource, Observation, Patient } from 'fhir/r4';
import { inOrder as inOrderOfDays, type Phase, phaseFaults } from '../../course/phases';
import type { Ladder, LandmarkReading, Rung } from '../../ladder/ladder';
import { isLandmarkOf } from '../../ladder/limb';
import type { FiledLadder, FiledVisit, PatientFile } from '../../record/patient-file';
import { type NamedMeasure, OCCASIONS, type SingleReading } from '../../record/patient-record';
import { type CalendarDay, readDay } from '../../units/calendar-day';
import { FILED_ORDER_JSON, FILED_PIECE_JSON } from '../filed-garments';
import { CAUTION_JSON, EVENT_JSON, PHASE_JSON, ZERO_CHOICE } from '../filed-json';
import { type BundleGraph, bundleGraph } from './bundle-graph';
import { BundleRefusal, json, jsonOf, named, needed, oneOf } from './bundle-refusal';
import { type Extended, extendedText, extensionsOf, keptQuestions } from './extensions';
import { distanceOf } from './limb-places';
import { isNamedMeasure, namedMeasureOf } from './measure-resources';
import { OWN, OWN_SYSTEM, type OwnCode, ownIdentifier } from './own-codes';
import { withoutKey } from './own-ids';
import { detailsOf, referenceOf } from './patient-resource';
import { notedOf } from './read-noted';
import { lengthOf, massOf } from './typed-quantity';
import { BODY, BODY_MASS_INDEX } from './visit-resources';

/** How the reading of a bundle of ours ended: a file a patient, and what was not read; a refusal names the resource. */
export type BundleRead =
  | { readonly kind: 'read'; readonly files: readonly PatientFile[]; readonly passedOver: readonly string[] }
  | { readonly kind: 'refused'; readonly reason: string };

/** True for a bundle that this program wrote, also when it comes back from a server: our codes or extensions are in it. */
export function isOurBundle(bundle: Bundle<FhirResource>): boolean {
  return bundleGraph(bundle).resources.some(
    (one) =>
      (one.resourceType === 'CodeSystem' && one.url === OWN_SYSTEM) ||
      (one.resourceType === 'Observation' && one.code.coding?.some(({ system }) => system === OWN_SYSTEM)) ||
      (one as Extended).extension?.some(({ url }) => url.startsWith(`${OWN}/`)),
  );
}

/**
 * The patients of a bundle that this program wrote, to the typed text; undoes `patientBundle`, whichever ids a server gave and in whatever
 * order it sends them.
 *
 * Each patient gets what names it, and nothing else; what names nobody, or is not ours, is listed. Refuses a bundle without a patient and any
 * resource that lacks what it was written with. Who wrote and corrected the visits is not read back: whoever brings the bundle in writes them.
 */
export function readOurBundle(bundle: Bundle<FhirResource>): BundleRead {
  try {
    const graph = bundleGraph(bundle);
    if (graph.patients.length === 0) throw new BundleRefusal('The bundle has no Patient.');
    const files = graph.patients.map((patient) => fileOf(patient, graph));
    return { kind: 'read', files, passedOver: passedOverIn(graph) };
  } catch (error) {
    if (error instanceof BundleRefusal) return { kind: 'refused', reason: error.message };
    throw error;
  }
}

function fileOf(patient: Patient, graph: BundleGraph): PatientFile {
  checkPatient(patient);
  const own = graph.resources.filter((one) => graph.patientOf(one) === patient);
  const all = <Type extends FhirResource['resourceType']>(type: Type) =>
    own.filter((one): one is Extract<FhirResource, { resourceType: Type }> => one.resourceType === type);
  const observations = all('Observation');
  const details = detailsOf(patient);
  const visits = inOrder(all('Encounter')).map((encounter) => visitOf(encounter, observations, graph));
  return {
    details,
    visits,
    pieces: inOrder(all('Device')).map((device) => jsonOf(device, 'piece', FILED_PIECE_JSON)),
    orders: inOrder(all('DeviceRequest')).map((request) => jsonOf(request, 'order', FILED_ORDER_JSON)),
    events: inOrder(observations.filter((one) => hasCode(one, 'limb-event'))).map((one) => jsonOf(one, 'event', EVENT_JSON)),
    phases: phasesOf(inOrder(all('EpisodeOfCare')), details.born, visits),
    cautions: inOrder(observations.filter((one) => hasCode(one, 'caution-answer'))).map((one) => jsonOf(one, 'caution', CAUTION_JSON)),
    ...notedOf(
      all('Condition'),
      inOrder(all('Appointment')),
      inOrder(observations.filter((one) => hasCode(one, 'looked-at'))),
      observations.filter((one) => hasCode(one, 'leaving')),
      inOrder(all('Communication').filter((one) => extendedText(one, 'family-reply') !== null)),
      details.born,
    ),
    writings: [],
  };
}

function phasesOf(episodes: readonly EpisodeOfCare[], born: CalendarDay, visits: readonly FiledVisit[]): readonly Phase[] {
  const of = new Map(episodes.map((one) => [jsonOf(one, 'phase', PHASE_JSON), one]));
  const [fault] = phaseFaults([...of.keys()], born, new Set(visits.map(({ day }) => day)));
  if (fault) throw new BundleRefusal(`${named(of.get(fault.phase) as EpisodeOfCare)}: ${fault.reason}`);
  return inOrderOfDays([...of.keys()]);
}

/** The order in which they were written, by the number they carry or that ends their identifier; as they come where there is none. */
function inOrder<T extends FhirResource & Extended>(resources: readonly T[]): readonly T[] {
  const place = (one: T) => Number(extendedText(one, 'number') ?? /-(\d+)$/.exec(ownIdentifier(one) ?? '')?.[1] ?? Number.NaN);
  return [...resources].sort((one, other) => place(one) - place(other) || 0);
}

/** Resources that nothing was read from, each with its reason. What was worked out from others (volumes, an index, provenance) is not among them. */
function passedOverIn(graph: BundleGraph): string[] {
  const read = new Set([
    'Patient',
    'Encounter',
    'EpisodeOfCare',
    'BodyStructure',
    'Device',
    'DeviceRequest',
    'DeviceUseStatement',
    'Provenance',
    'CodeSystem',
    'Organization',
    'Condition',
    'ServiceRequest',
    'Consent',
    'Appointment',
    'Communication',
  ]);
  return graph.resources.flatMap((one) => {
    if (one.resourceType === 'Observation') {
      if (!graph.patientOf(one)) return [`${named(one)}: its subject is not a patient of this bundle.`];
      return isOursOrBody(one) ? [] : [`${named(one)}: not a measure that is read from a bundle of ours.`];
    }
    const isForeign = one.resourceType === 'Communication' && extendedText(one, 'family-reply') === null;
    if (isForeign || !read.has(one.resourceType)) return [`${named(one)}: this kind of resource is not read.`];
    const needsPatient = ['Encounter', 'EpisodeOfCare', 'Device', 'DeviceRequest'].includes(one.resourceType);
    return needsPatient && !graph.patientOf(one) ? [`${named(one)}: its subject is not a patient of this bundle.`] : [];
  });
}

function isOursOrBody(observation: Observation): boolean {
  const { code } = observation;
  const vital = [BODY.height.code, BODY.weight.code, BODY_MASS_INDEX.code] as readonly string[];
  const isOwn = code.coding?.some(({ system, code: one }) => system === OWN_SYSTEM || vital.includes(one ?? '')) ?? false;
  return isOwn || isNamedMeasure(observation);
}

function checkPatient(patient: Patient): void {
  if (readDay(patient.birthDate ?? '').kind !== 'read') throw new BundleRefusal('The Patient has no day of birth.');
  if (!referenceOf(patient)) throw new BundleRefusal('The Patient has no number of the clinic that sent it.');
}

function visitOf(encounter: Encounter, observations: readonly Observation[], graph: BundleGraph): FiledVisit {
  const day = readDay(encounter.period?.start ?? '');
  if (day.kind !== 'read') throw new BundleRefusal(`${named(encounter)} has no day.`);
  const own = observations.filter((one) => graph.resolve(one.encounter?.reference) === encounter);
  const height = own.find((one) => one.code.coding?.[0]?.code === BODY.height.code);
  const weight = own.find((one) => one.code.coding?.[0]?.code === BODY.weight.code);
  const readings = inOrder(own.filter((one) => hasCode(one, 'single-reading'))).map(readingOf);
  const keptBody = [height, weight].flatMap((one) => (one ? keptQuestions(one) : []));
  const measures = inOrder(own.filter(isNamedMeasure)).map(measureOfObservation);
  const occasion = OCCASIONS.find((one) => one === extendedText(encounter, 'occasion')) ?? null;
  return {
    keptBody: keptBody.length > 0 ? keptBody : null,
    occasion,
    id: withoutKey(ownIdentifier(encounter) ?? encounter.id ?? ''),
    day: day.value,
    time: extendedText(encounter, 'clock-time'),
    posture: extendedText(encounter, 'posture'),
    measurer: extendedText(encounter, 'measurer'),
    note: extendedText(encounter, 'note'),
    height: height ? needed(height, lengthOf(height.valueQuantity)) : null,
    weight: weight ? needed(weight, massOf(weight.valueQuantity)) : null,
    readings: readings.length > 0 ? readings : null,
    ...(measures.length > 0 ? { measures } : {}),
    ladders: inOrder(own.filter((one) => hasCode(one, 'girth-ladder'))).map((panel) => ladderOf(panel, graph)),
  };
}

function readingOf(observation: Observation): SingleReading {
  return { name: observation.code.text ?? '', length: needed(observation, lengthOf(observation.valueQuantity)) };
}

function measureOfObservation(observation: Observation): NamedMeasure {
  const found = namedMeasureOf(observation, needed(observation, lengthOf(observation.valueQuantity)));
  if (!found) throw new BundleRefusal(`${named(observation)} names no measure of the part and side beside it.`);
  return found;
}

function ladderOf(panel: Observation, graph: BundleGraph): FiledLadder {
  const members = (panel.hasMember ?? []).map(({ reference }) => {
    const member = graph.resolve(reference);
    if (member?.resourceType !== 'Observation')
      throw new BundleRefusal(`${named(panel)} has a member that is not in the bundle: ${reference}.`);
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
    rungs: members.filter((one) => hasCode(one, 'girth-at-place')).map((member) => rungOf(member, graph)),
    landmarks: members.filter((one) => hasCode(one, 'landmark-on-ladder')).map((member) => landmarkOf(member, limb)),
    floorToFold: fold ? needed(fold, lengthOf(fold.valueQuantity)) : null,
    zeroChoice: choice === null ? null : json(panel, choice, ZERO_CHOICE),
  };
}

function rungOf(member: Observation, { resolve }: BundleGraph): Rung {
  const place = resolve(member.bodySite?.extension?.[0]?.valueReference?.reference);
  const again = extensionsOf(member, 'second-taping')[0]?.valueQuantity;
  const note = member.note?.[0]?.text;
  const kept = keptQuestions(member);
  return {
    distance: needed(member, lengthOf(distanceOf(place?.resourceType === 'BodyStructure' ? place : undefined))),
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
