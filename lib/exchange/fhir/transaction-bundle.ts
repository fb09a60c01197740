import type { Bundle, BundleEntry, FhirResource, Identifier } from 'fhir/r4';
import { fingerprint, withReferences } from './own-ids';

/**
 * A collection of ours as a transaction that a server takes: uploaded again it updates what it made before and doubles nothing.
 *
 * Each resource has a `urn:uuid` address made of its identifier, references lead there, ids are left to the server. What carries an
 * identifier is a conditional update (`PUT Type?identifier=system|value`), our code system one by its `url`; a Provenance, which tells what
 * once happened and never changes, a conditional create by its tag. A server that cannot update conditionally refuses the whole, which
 * changes nothing.
 *
 * Shape: a bundle of `patientBundle`; a bundle of type `transaction`. Source: HL7 FHIR R4, http.html#transaction, #cond-update, #ccreate;
 * RFC 9562.
 */
export function transactionBundle(collection: Bundle<FhirResource>): Bundle<FhirResource> {
  const resources = (collection.entry ?? []).flatMap(({ resource }) => (resource ? [resource] : []));
  const address = (type: string, id: string) => `urn:uuid:${uuidOf(`${type}/${id}`)}`;
  const entry = resources.map((resource): BundleEntry<FhirResource> => {
    const { id = '', ...rest } = withReferences(resource, address) as FhirResource;
    return { fullUrl: address(resource.resourceType, id), resource: rest as FhirResource, request: requestOf(resource) };
  });
  return { resourceType: 'Bundle', type: 'transaction', timestamp: collection.timestamp, entry };
}

function requestOf(resource: FhirResource): NonNullable<BundleEntry['request']> {
  const type = resource.resourceType;
  if (resource.resourceType === 'Provenance')
    return { method: 'POST', url: type, ifNoneExist: `_tag=${token(resource.meta?.tag?.[0]?.system, resource.meta?.tag?.[0]?.code)}` };
  if (resource.resourceType === 'CodeSystem') return { method: 'PUT', url: `${type}?url=${encodeURIComponent(resource.url ?? '')}` };
  const { identifier = [] } = resource as { readonly identifier?: readonly Identifier[] };
  const own = identifier.at(-1);
  return { method: 'PUT', url: `${type}?identifier=${token(own?.system, own?.value)}` };
}

/** `system|value` as a search parameter. Source: HL7 FHIR R4, search, escaping and token. */
function token(system = '', value = ''): string {
  const escaped = (text: string) => encodeURIComponent(text.replace(/[\\,$|]/g, (mark) => `\\${mark}`));
  return `${escaped(system)}|${escaped(value)}`;
}

/** A UUID of version 8 of a text: the first 128 bits of its SHA-256. Source: RFC 9562, appendix B.2. */
function uuidOf(text: string): string {
  const hex = fingerprint(text);
  const variant = ((Number.parseInt(hex[16] ?? '0', 16) & 3) | 8).toString(16);
  return [hex.slice(0, 8), hex.slice(8, 12), `8${hex.slice(13, 16)}`, `${variant}${hex.slice(17, 20)}`, hex.slice(20, 32)].join('-');
}
