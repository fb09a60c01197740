import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import type { FhirResource, Identifier } from 'fhir/r4';
import { OWN } from './own-codes';

/** Whose the bundle is and who sends it: the id of the patient in our own store, and the clinic with the zone its clock times are of. */
export type BundleOwner = {
  readonly patientId: string;
  readonly clinic: { readonly id: string; readonly name: string; readonly timeZone: string };
};

/** SHA-256 of a text in UTF-8, hexadecimal: the same text has the same address wherever it is made. Source: FIPS 180-4. */
export function fingerprint(text: string): string {
  return bytesToHex(sha256(new TextEncoder().encode(text)));
}

/** The key of one patient of one clinic, that every id of theirs begins with: 16 hexadecimal digits. */
function patientKey({ patientId, clinic }: BundleOwner): string {
  return fingerprint(`${clinic.id}/${patientId}`).slice(0, 16);
}

/** What stands behind the key in an identifier of ours; the whole of one that has no key. Example: `…key…-visit-7f` is `visit-7f`. */
export function withoutKey(identifier: string): string {
  return identifier.replace(/^[0-9a-f]{16}-/, '');
}

/** Resources of which a bundle has one for all patients: ids of their own, no patient's. */
const SHARED = ['Organization', 'CodeSystem'];

/**
 * Resources with ids, references and identifiers of each patient's own, so that the bundles of two patients never meet on a server.
 *
 * Each id becomes `key-id`, the Patient's the key itself; each resource that takes one gets an identifier of the same text in our naming
 * system, a Provenance (which takes none) a tag. Source: HL7 FHIR R4, Resource.id (at most 64 characters), Identifier.
 */
export function withOwnIds(resources: readonly FhirResource[], owner: BundleOwner): FhirResource[] {
  const key = patientKey(owner);
  const idOf = (type: string, id: string) =>
    type === 'Organization'
      ? fingerprint(owner.clinic.id).slice(0, 16)
      : SHARED.includes(type)
        ? id
        : type === 'Patient'
          ? key
          : `${key}-${id}`;
  return resources.map((resource) => {
    const id = idOf(resource.resourceType, resource.id ?? '');
    const renamed = { ...(withReferences(resource, (type, one) => `${type}/${idOf(type, one)}`) as FhirResource), id };
    if (SHARED.includes(resource.resourceType)) return renamed;
    const own: Identifier = { system: `${OWN}/NamingSystem/${resource.resourceType.toLowerCase()}`, value: id };
    if (renamed.resourceType === 'Provenance') return { ...renamed, meta: { tag: [{ system: own.system, code: id }] } };
    const { identifier = [] } = renamed as { readonly identifier?: readonly Identifier[] };
    return { ...renamed, identifier: [...identifier, own] } as FhirResource;
  });
}

/** A resource, or part of one, with each relative reference as `renamed` makes it. */
export function withReferences(value: unknown, renamed: (type: string, id: string) => string): unknown {
  if (Array.isArray(value)) return value.map((one) => withReferences(one, renamed));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([name, one]) => {
      const [type, id] = name === 'reference' && typeof one === 'string' ? one.split('/') : [];
      return [name, type && id ? renamed(type, id) : withReferences(one, renamed)];
    }),
  );
}

/** Short names for things, each unlike the others: at most ten letters and digits of each text, and a number where two are alike. */
export function shortNames(texts: readonly string[]): readonly string[] {
  return unlike(texts.map((text) => text.replace(/[^A-Za-z0-9]/g, '').slice(-10) || 'x'));
}

/** Names, with a number behind those that stood before. Example: `a, b, a` is `a, b, a.2`. */
export function unlike(names: readonly string[]): readonly string[] {
  const given = new Set<string>();
  return names.map((plain) => {
    let name = plain;
    for (let more = 2; given.has(name); more += 1) name = `${plain}.${more}`;
    given.add(name);
    return name;
  });
}
