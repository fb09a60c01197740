import type { Bundle, FhirResource, Quantity } from 'fhir/r4';
import type { PatientAnalysis } from '../../analysis/analyse-patient';
import type { PatientFile } from '../../record/patient-file';
import { cautionResource, eventResource, orderResource, phaseResource, pieceResources } from './garment-resources';
import { ladderResources } from './ladder-resources';
import { limbPlaces } from './limb-places';
import { MEASURE_CODE_SYSTEM, measureResources } from './measure-resources';
import { bookingResource, factResources, leavingResource, lookedResource, replyResource } from './noted-resources';
import { OWN, OWN_CODE_SYSTEM } from './own-codes';
import { type BundleOwner, shortNames, withOwnIds } from './own-ids';
import { clinicResource, patientResource } from './patient-resource';
import { digitsOf } from './typed-quantity';
import { bodyResources, encounterResource, provenanceResources, statusOf } from './visit-resources';

/**
 * One patient as a FHIR R4 bundle (collection): the patient, each visit, what was measured, volumes, orders, pieces, events, phases, cautions, and
 * who wrote what; our code system travels with it. Prompts stay at home: something to consider is not a result. Every id is the patient's own
 * and the same at each writing: of a visit by its id, of a rung by its distance, of a place by what it is.
 *
 * Shape: a file, what the engine says of it, the moment it is written, whose it is and which clinic sends it. Source: HL7 FHIR R4 (4.0.1).
 */
export function patientBundle(file: PatientFile, analysis: PatientAnalysis, at: string, owner: BundleOwner): Bundle<FhirResource> {
  const places = limbPlaces();
  const volumeOf = new Map(analysis.limbs.flatMap(({ visits }) => visits.map((one) => [one.at.ladder, one.volume] as const)));
  const names = shortNames(file.visits.map(({ id }) => id));
  const visits = file.visits.flatMap((visit, index) => {
    const id = `visit-${names[index]}`;
    const writings = file.writings.filter(({ visitId }) => visitId === visit.id);
    const status = statusOf(writings);
    return [
      encounterResource(visit, id, index + 1),
      ...bodyResources(visit, id, status),
      ...measureResources(visit, id, status),
      ...visit.ladders.flatMap((ladder, number) => ladderResources(visit, ladder, id, number + 1, status, places, volumeOf.get(ladder))),
      ...provenanceResources(writings, id),
    ];
  });
  const idOfVisit = new Map(file.visits.map(({ id }, index) => [id, `visit-${names[index]}`]));
  const cutFrom = <T extends { readonly cutFromVisitId: string | null }>(one: T): T => ({
    ...one,
    cutFromVisitId: idOfVisit.get(one.cutFromVisitId ?? '') ?? null,
  });
  const pieceNames = shortNames(file.pieces.map(({ piece }) => piece));
  const eventNames = shortNames(file.events.map(({ day }) => day));
  const phaseNames = shortNames(file.phases.map(({ from }) => from));
  const cautionNames = shortNames(file.cautions.map(({ card }) => card));
  const resources = withOwnIds(
    [
      clinicResource(owner),
      patientResource(file.details, owner, file.facts),
      ...visits,
      ...places.all(),
      ...file.orders.map((order) => orderResource(cutFrom(order))),
      ...file.pieces.flatMap((piece, index) => pieceResources(cutFrom(piece), pieceNames[index] ?? '', index + 1)),
      ...file.events.map((event, index) => eventResource(event, eventNames[index] ?? '', index + 1)),
      ...file.phases.map((phase, index) =>
        phaseResource(phase, file.phases[index + 1], at.slice(0, 10), phaseNames[index] ?? '', index + 1),
      ),
      ...file.cautions.map((caution, index) => cautionResource(caution, cautionNames[index] ?? '', index + 1)),
      ...(file.facts ? factResources(file.facts) : []),
      ...(file.bookings ?? []).map((one, index) => bookingResource(one, index + 1, owner.clinic.timeZone)),
      ...(file.observations ?? []).map((one, index) => lookedResource(one, index + 1)),
      ...(file.replies ?? []).map((one, index) => replyResource(one, index + 1, owner.clinic.timeZone)),
      ...(file.leaving ? [leavingResource(file.leaving)] : []),
      OWN_CODE_SYSTEM,
      ...(file.visits.some(({ measures }) => measures?.length) ? [MEASURE_CODE_SYSTEM] : []),
    ],
    owner,
  );
  return {
    resourceType: 'Bundle',
    type: 'collection',
    timestamp: at,
    entry: resources.map((resource) => ({ fullUrl: `${OWN}/${resource.resourceType}/${resource.id}`, resource })),
  };
}

const MARK = '\u0001';

/** A bundle as JSON text; typed figures with the digits that were typed, so that 12.50 stays 12.50. */
export function bundleText(bundle: Bundle<FhirResource>): string {
  const marked = JSON.stringify(
    bundle,
    function (this: Quantity, key: string, value: unknown) {
      const digits = key === 'value' && typeof value === 'number' ? digitsOf(this) : undefined;
      return digits === undefined ? value : MARK + digits;
    },
    2,
  );
  return `${marked.replace(/"\\u0001([\d.]+)"/g, '$1')}\n`;
}
