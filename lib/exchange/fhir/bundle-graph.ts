import type { Bundle, FhirResource, Patient, Reference } from 'fhir/r4';

/** The resources of a bundle and the way from a reference to what it names, whoever gave the ids. */
export type BundleGraph = {
  readonly resources: readonly FhirResource[];
  readonly patients: readonly Patient[];
  /** What a reference names: relative (`Patient/1`), absolute, versioned, or the full address of an entry (`urn:uuid:…`). */
  readonly resolve: (reference: string | undefined) => FhirResource | undefined;
  /** The patient a resource is about; undefined when it names none or one that is not in the bundle. */
  readonly patientOf: (resource: FhirResource) => Patient | undefined;
};

/**
 * A bundle as a graph: references are followed by address and by `Type/id`, so that a bundle that came back from a server with new ids reads as
 * the one that went there. Entries without a resource, and what a server says beside its answer (OperationOutcome), are passed over.
 *
 * Source: HL7 FHIR R4, Bundle, resolving references in bundles.
 */
export function bundleGraph(bundle: Bundle<FhirResource>): BundleGraph {
  const byAddress = new Map<string, FhirResource>();
  const resources: FhirResource[] = [];
  for (const { fullUrl, resource } of bundle.entry ?? []) {
    if (!resource || resource.resourceType === 'OperationOutcome') continue;
    resources.push(resource);
    if (resource.id) byAddress.set(`${resource.resourceType}/${resource.id}`, resource);
    if (fullUrl) byAddress.set(fullUrl, resource);
  }
  const resolve = (reference: string | undefined) =>
    reference ? (byAddress.get(reference) ?? byAddress.get(shortOf(reference))) : undefined;
  const patientOf = (resource: FhirResource) => {
    const found = resolve(aboutOf(resource));
    return found?.resourceType === 'Patient' ? found : undefined;
  };
  return { resources, patients: resources.filter((one) => one.resourceType === 'Patient'), resolve, patientOf };
}

/** `Type/id` of an absolute or versioned reference. Example: `https://x/fhir/Patient/7/_history/2` is `Patient/7`. */
function shortOf(reference: string): string {
  const found = /([A-Z][A-Za-z]+\/[A-Za-z0-9.-]{1,64})(?:\/_history\/[^/]+)?$/.exec(reference);
  return found?.[1] ?? reference;
}

function aboutOf(resource: FhirResource): string | undefined {
  const { subject, patient } = resource as { readonly subject?: Reference; readonly patient?: Reference };
  const { participant = [] } = resource as { readonly participant?: readonly { readonly actor?: Reference }[] };
  return (
    subject?.reference ?? patient?.reference ?? (resource.resourceType === 'Appointment' ? participant[0]?.actor?.reference : undefined)
  );
}
