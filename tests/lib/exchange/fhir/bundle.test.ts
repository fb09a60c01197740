import fs from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import type { Bundle, FhirResource, Observation } from 'fhir/r4';
import { describe, expect, it } from 'vitest';
import { analysePatient } from '@/lib/analysis/analyse-patient';
import { bookingResource, factResources, lookedResource } from '@/lib/exchange/fhir/noted-resources';
import { shortNames } from '@/lib/exchange/fhir/own-ids';
import { isOurBundle, readOurBundle } from '@/lib/exchange/fhir/read-bundle';
import { readForeignBundle } from '@/lib/exchange/fhir/read-foreign-bundle';
import { bundleText, patientBundle } from '@/lib/exchange/fhir/write-bundle';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { type PatientFile, recordOfFile } from '@/lib/record/patient-file';
import { calendarDay } from '@/lib/units/calendar-day';
import { readMass } from '@/lib/units/mass';
import { readLength } from '@/lib/units/read-length';
import { anyFile, anyMeasuredFile } from '@/tests/properties/made-up-files';
import { FACTS, OBSERVATIONS, REPLIES } from '../../made-up-noted';
import { byFhir, byMedplum, byOwnRules, notCarried } from './validators';

const TODAY = calendarDay('2026-11-25');
const AT = '2026-11-25T12:00:00.000Z';
const FILES = fc.sample(anyFile, { numRuns: 200, seed: 20261125 });

function textOf(file: PatientFile): string {
  return bundleText(bundleOfFile(file));
}

function bundleOfFile(file: PatientFile): Bundle<FhirResource> {
  const owner = { patientId: file.details.reference, clinic: { id: 'clinic-1', name: 'Garment clinic', timeZone: 'Europe/London' } };
  return patientBundle(file, analysePatient(recordOfFile(file), DEFAULT_POLICY, TODAY), AT, owner);
}

function parsed(file: PatientFile): Bundle<FhirResource> {
  return JSON.parse(textOf(file)) as Bundle<FhirResource>;
}

function example(name: string): Observation {
  return JSON.parse(fs.readFileSync(path.resolve(import.meta.dirname, '../../../reference/fhir', name), 'utf8')) as Observation;
}

/** The file as it comes back: visits and what hangs on them under the ids of the bundle, nobody's writings. */
function asRead(file: PatientFile): PatientFile {
  const names = shortNames(file.visits.map(({ id }) => id));
  const idOf = new Map(file.visits.map(({ id }, index) => [id, `visit-${names[index]}`]));
  return {
    ...file,
    visits: file.visits.map((visit) => ({ ...visit, id: idOf.get(visit.id) ?? '' })),
    pieces: file.pieces.map((piece) => ({ ...piece, cutFromVisitId: idOf.get(piece.cutFromVisitId ?? '') ?? null })),
    orders: file.orders.map((order) => ({ ...order, cutFromVisitId: idOf.get(order.cutFromVisitId) ?? '' })),
    writings: [],
  };
}

describe('the validators themselves', () => {
  it.each(['obs-6', 'obs-7'])('tell HL7’s own failing example of %s from the passing one', (rule) => {
    const against = (name: string) => [...byMedplum(example(name)), ...inBundle(example(name))].join();
    expect(against(`${rule}.fail.json`)).toContain(rule);
    expect(against(`${rule}.pass.json`)).not.toContain(rule);
  });

  it.each(['vs-1', 'vs-2'])('find HL7’s failing example of %s by its profile', (rule) => {
    expect(byMedplum(example(`${rule}.fail.json`)).join()).toContain(rule);
  });

  const good: Observation = {
    resourceType: 'Observation',
    id: 'height',
    meta: { profile: ['http://hl7.org/fhir/StructureDefinition/bodyheight'] },
    status: 'final',
    category: [{ coding: [{ system: 'http://terminology.hl7.org/CodeSystem/observation-category', code: 'vital-signs' }] }],
    code: { coding: [{ system: 'http://loinc.org', code: '8302-2' }] },
    subject: { reference: 'Patient/subject' },
    effectiveDateTime: '2026-03-02',
    valueQuantity: { value: 120, unit: 'cm', system: 'http://unitsofmeasure.org', code: 'cm' },
  };
  const inBundle = (resource: unknown) =>
    byOwnRules({
      resourceType: 'Bundle',
      type: 'collection',
      entry: [
        { fullUrl: 'urn:a', resource: resource as FhirResource },
        { fullUrl: 'urn:b', resource: { resourceType: 'Patient', id: 'subject' } },
      ],
    });

  it('say nothing against a good height', () => {
    expect([byFhir(good), byMedplum(good), inBundle(good)]).toEqual([[], [], []]);
  });

  it.each([
    ['a missing status', { ...good, status: undefined }],
    ['a wrong status', { ...good, status: 'finished' }],
    ['a missing code', { ...good, code: undefined }],
    ['an unknown key', { ...good, value: 3 }],
    ['a number as text', { ...good, valueQuantity: { ...good.valueQuantity, value: '120' } }],
    ['another spelling of a day', { ...good, effectiveDateTime: '05/01/2026' }],
    ['a value and a reason for none', { ...good, dataAbsentReason: { text: 'none' } }],
    ['two values', { ...good, valueString: '120' }],
    ['an empty list', { ...good, note: [] }],
    ['a day that is not in the calendar', { ...good, effectiveDateTime: '2026-02-30' }],
    ['a missing category', { ...good, category: undefined }],
    ['a unit that is not bound', { ...good, valueQuantity: { ...good.valueQuantity, code: '[fur_us]' } }],
    ['a reference that leads out', { ...good, subject: { reference: 'Patient/other' } }],
  ])('at least one of the three finds a planted fault: %s', (_name, planted) => {
    const resource = JSON.parse(JSON.stringify(planted)) as Observation;
    expect([...byFhir(resource), ...byMedplum(resource), ...inBundle(resource)]).not.toEqual([]);
  });
});

describe('bundles of 200 made-up patients', () => {
  it('pass both validators and our own rules, warnings counted as failures', () => {
    const faults = FILES.flatMap((file) => {
      const bundle = parsed(file);
      return [
        ...byFhir(bundle),
        ...(bundle.entry ?? []).flatMap(({ resource }) => (resource ? byMedplum(resource) : [])),
        ...byOwnRules(bundle),
      ];
    });
    expect(faults).toEqual([]);
    // Examples or extensible sets of R4, whose lists the package does not bring; every other set was looked up.
    expect([...notCarried].sort()).toEqual([
      'http://hl7.org/fhir/ValueSet/body-site',
      'http://hl7.org/fhir/ValueSet/device-kind',
      'http://hl7.org/fhir/ValueSet/device-type',
      'http://hl7.org/fhir/ValueSet/observation-codes',
      'http://terminology.hl7.org/ValueSet/v3-ActEncounterCode',
    ]);
  });

  it('a reply of a family is a Communication at the clinic’s clock, passes the validators and comes back as it was', () => {
    const file = { ...(FILES[0] as PatientFile), replies: REPLIES };
    const bundle = parsed(file);
    const [first, second] = (bundle.entry ?? []).flatMap(({ resource }) => (resource?.resourceType === 'Communication' ? [resource] : []));
    // 20 October 2026 in London is still summer time, an hour ahead of UTC (IANA zone Europe/London).
    expect(first).toMatchObject({ status: 'completed', sent: '2026-10-20T08:30:00.000Z', sender: { display: 'Ada' } });
    expect(second?.sender?.display).toBe('the family');
    const faults = [first, second].flatMap((one) => (one ? byMedplum(one) : ['missing']));
    expect([...faults, ...byFhir(bundle), ...byOwnRules(bundle)]).toEqual([]);
    expect(readOurBundle(bundle)).toEqual({ kind: 'read', files: [asRead(file)], passedOver: [] });
  });

  it('come back with nothing lost, to the typed text', () => {
    for (const file of FILES) {
      const bundle = parsed(file);
      expect(isOurBundle(bundle)).toBe(true);
      expect(readOurBundle(bundle)).toEqual({ kind: 'read', files: [asRead(file)], passedOver: [] });
    }
  });

  it('write each figure with the digits that were typed: 12.50 is not 12.5, and no float leaves a tail', () => {
    const text = FILES.map(textOf).join('');
    expect(text).toContain('"value": 36.50,');
    const digits = [...text.matchAll(/"value": ([\d.]+)/g)].map(([, figure]) => figure ?? '');
    expect(digits.length).toBeGreaterThan(5000);
    expect(digits.filter((figure) => (figure.split('.')[1]?.length ?? 0) > 6)).toEqual([]);
  });

  it('make a place once, however often it is taped', () => {
    const [file] = fc.sample(
      anyFile.filter(({ visits }) => (visits[0]?.ladders[0]?.rungs.length ?? 0) > 2),
      { numRuns: 1, seed: 4 },
    );
    const visit = file?.visits[0];
    const twice = { ...(file as PatientFile), visits: visit ? [visit, { ...visit, id: 'again', day: calendarDay('2026-04-01') }] : [] };
    const places = (one: PatientFile) => parsed(one).entry?.filter(({ resource }) => resource?.resourceType === 'BodyStructure').length;
    expect(places(twice)).toBe(places({ ...twice, visits: twice.visits.slice(0, 1) }));
  });
});

describe('what is noted beside the measures, in a bundle', () => {
  const day = calendarDay('2026-07-14');
  const [START, MIDNIGHT, NEXT] = ['2026-07-14T08:30:00.000Z', '2026-07-13T23:00:00.000Z', '2026-07-14T23:00:00.000Z'];
  const requestedPeriod = [{ start: '2026-07-14', end: '2026-07-14' }];
  const valid = (resource: FhirResource) => [...byFhir(resource), ...byMedplum(resource as Parameters<typeof byMedplum>[0])];

  // London is an hour ahead of UTC in July. Source: IANA time zone database.
  it.each([
    ['booked', '09:30', { status: 'booked', start: START, end: START }],
    ['missed', '09:30', { status: 'noshow', start: START, end: START }],
    ['cancelled by the person', '09:30', { status: 'cancelled', start: START, end: START }],
    ['booked', null, { status: 'proposed', requestedPeriod }],
    ['missed', null, { status: 'noshow', start: MIDNIGHT, end: NEXT }],
    ['cancelled by the clinic', null, { status: 'cancelled', requestedPeriod }],
  ] as const)('a visit that is %s, at %s, keeps the rules app-2 and app-3', (state, time, said) => {
    const made = bookingResource({ day, time, what: 'fit', state }, 1, 'Europe/London');
    const { status, start, end, requestedPeriod: asked } = made;
    expect({ status, ...(start && { start }), ...(end && { end }), ...(asked && { requestedPeriod: asked }) }).toEqual(said);
    expect(valid(made)).toEqual([]);
    // HL7 FHIR R4, Appointment: app-2 (start and end both or neither), app-3 (missing for proposed, cancelled, waitlist alone).
    expect(start !== undefined).toBe(end !== undefined);
    expect(start !== undefined || ['proposed', 'cancelled', 'waitlist'].includes(status)).toBe(true);
    expect(valid({ ...made, status: 'booked', start: undefined, end: undefined } as FhirResource)).not.toEqual([]);
  });

  it('a consent says what was agreed to and claims no scope of its own; a figure has its unit', () => {
    const resources = factResources(FACTS);
    const consents = resources.filter((one) => one.resourceType === 'Consent');
    expect(consents.map(({ scope }) => scope)).toEqual([{ text: 'share measures with the prescriber' }]);
    expect(resources.flatMap(valid)).toEqual([]);
    const quantities = OBSERVATIONS.map((one, at) => lookedResource(one, at + 1)).flatMap(({ component = [] }) =>
      component.map(({ valueQuantity }) => valueQuantity),
    );
    const system = 'http://unitsofmeasure.org';
    expect(quantities).toEqual([
      { value: 20, unit: 'mm', system, code: 'mm' },
      { value: 6, unit: 'days', system, code: 'd' },
      { value: 11.5, unit: 'h', system, code: 'h' },
    ]);
  });
});

describe('named measures in a bundle', () => {
  const measured = fc.sample(anyMeasuredFile, { numRuns: 40, seed: 22 });
  const observations = (bundle: Bundle<FhirResource>) =>
    (bundle.entry ?? []).flatMap(({ resource }) => (resource?.resourceType === 'Observation' ? [resource] : []));

  it('come back with nothing lost, to the typed text, kept questions and affected parts among it', () => {
    for (const file of measured) {
      const bundle = parsed(file);
      expect(isOurBundle(bundle)).toBe(true);
      expect(readOurBundle(bundle)).toEqual({ kind: 'read', files: [asRead(file)], passedOver: [] });
    }
  });

  it('pass both validators and our own rules', () => {
    const faults = measured.slice(0, 10).flatMap((file) => {
      const bundle = parsed(file);
      const taken = observations(bundle).filter(({ code }) => code.coding?.[0]?.system?.endsWith('/named-measure'));
      expect(taken).toHaveLength(file.visits.flatMap(({ measures }) => measures ?? []).length);
      return [...byFhir(bundle), ...taken.flatMap(byMedplum), ...byOwnRules(bundle)];
    });
    expect(faults).toEqual([]);
  });

  it('have codes of the code system that travels along, and a public one where the definition is the same', () => {
    const bundles = measured.map(parsed);
    const codings = bundles.flatMap(observations).flatMap(({ code }) => code.coding ?? []);
    const published = new Set(
      bundles
        .flatMap(({ entry = [] }) =>
          entry.flatMap(({ resource }) => (resource?.resourceType === 'CodeSystem' ? (resource.concept ?? []) : [])),
        )
        .map(({ code }) => code),
    );
    const own = codings.filter(({ system }) => system?.startsWith('https://rungwise.invalid/'));
    expect(own.length).toBeGreaterThan(100);
    expect(own.filter(({ code }) => !published.has(code ?? ''))).toEqual([]);
    // HL7 FHIR R4, value set observation-vitalsign-headcircum, has 8287-5.
    expect(codings).toContainEqual({
      system: 'http://loinc.org',
      code: '8287-5',
      display: 'Head Occipital-frontal circumference by Tape measure',
    });
  });

  it('are refused where part and measure do not go together', () => {
    const bundle = parsed(measured.find(({ visits }) => visits.length > 0) as PatientFile);
    const taken = observations(bundle).find(({ code }) => code.coding?.[0]?.system?.endsWith('/named-measure'));
    if (taken?.code.coding?.[0]) taken.code.coding[0].code = 'hat-size';
    expect(readOurBundle(bundle)).toMatchObject({ kind: 'refused', reason: expect.stringContaining(`Observation/${taken?.id}`) });
  });
});

describe('the body mass index of a bundle', () => {
  const [any] = fc.sample(
    anyFile.filter(({ visits }) => visits.length > 0),
    { numRuns: 1, seed: 7 },
  );
  const [first] = any?.visits ?? [];
  const withBody = (height: string | null, weight: string | null): PatientFile => {
    const [tall, heavy] = [readLength(height ?? '', 'cm'), readMass(weight ?? '', 'kg')];
    const body = { height: tall.kind === 'read' ? tall.value : null, weight: heavy.kind === 'read' ? heavy.value : null };
    return { ...(any as PatientFile), visits: first ? [{ ...first, ...body }] : [] };
  };
  const indexIn = (bundle: Bundle<FhirResource>) =>
    (bundle.entry ?? []).flatMap(({ resource }) =>
      resource?.resourceType === 'Observation' && resource.code.coding?.some(({ code }) => code === '39156-5') ? [resource] : [],
    );

  it('is there where height and weight of one visit are, by its profile, and says what it was made of', () => {
    // HL7 FHIR R4, profile bmi: LOINC 39156-5, UCUM kg/m2. 50 kg at 160 cm is 19.53125 kg/m², by hand: 50 / 1.6².
    const [index, ...more] = indexIn(parsed(withBody('160 cm', '50 kg')));
    expect(more).toEqual([]);
    expect(index).toMatchObject({
      meta: { profile: ['http://hl7.org/fhir/StructureDefinition/bmi'] },
      valueQuantity: { value: 19.5, unit: 'kg/m2', system: 'http://unitsofmeasure.org', code: 'kg/m2' },
      note: [{ text: 'Worked out from height and weight of the same visit.' }],
      encounter: { reference: expect.stringMatching(/^Encounter\/[0-9a-f]{16}-visit-/) },
    });
    // The same body in inches and pounds: 63 in are 160.02 cm, 110 lb are 49.895 kg; 49.895 / 1.6002² = 19.485.
    expect(indexIn(parsed(withBody('63 in', '110 lb')))[0]?.valueQuantity?.value).toBe(19.5);
    expect(indexIn(parsed(withBody('160 cm', null)))).toEqual([]);
    expect(indexIn(parsed(withBody(null, '50 kg')))).toEqual([]);
  });

  it('is found wanting by a validator in another unit, and is never read back: a false one changes nothing', () => {
    const bundle = parsed(withBody('160 cm', '50 kg'));
    const right = readOurBundle(bundle);
    expect(right.kind).toBe('read');
    for (const index of indexIn(bundle)) index.valueQuantity = { ...index.valueQuantity, value: 99, code: 'kg' };
    expect([...byOwnRules(bundle), ...indexIn(bundle).flatMap(byMedplum)]).not.toEqual([]);
    expect(readOurBundle(bundle)).toEqual(right);
    expect(readForeignBundle(bundle).patients[0]?.body.map(({ height, weight }) => [height?.text, weight?.text])).toEqual([['160', '50']]);
  });
});

describe('a bundle that cannot be read back', () => {
  const [file] = fc.sample(
    anyFile.filter(({ visits }) => visits.some(({ ladders }) => ladders.some(({ rungs }) => rungs.some(({ girth }) => girth)))),
    { numRuns: 1, seed: 9 },
  );
  const bundle = () => parsed(file as PatientFile);

  it('is refused with the resource that is at fault', () => {
    const broken = bundle();
    const rung = broken.entry?.find(
      ({ resource }) => resource?.resourceType === 'Observation' && resource.id?.includes('-rung-') && resource.valueQuantity,
    );
    if (rung?.resource?.resourceType === 'Observation') rung.resource.valueQuantity = { value: 3, code: 'cm' };
    expect(readOurBundle(broken)).toMatchObject({ kind: 'refused', reason: expect.stringContaining(`Observation/${rung?.resource?.id}`) });
  });

  it('is refused when a ladder’s member or the patient is missing', () => {
    const without = (gone: (resource: FhirResource) => boolean) => ({
      ...bundle(),
      entry: bundle().entry?.filter(({ resource }) => resource && !gone(resource)),
    });
    expect(readOurBundle(without(({ resourceType }) => resourceType === 'Patient'))).toMatchObject({ kind: 'refused' });
    expect(readOurBundle(without(({ id }) => id?.includes('-rung-') ?? false))).toMatchObject({ kind: 'refused' });
  });
});

/** The bundle as a server gives it back: ids of its own, absolute references, another order, a search set, no code system. */
function fromServer(bundles: readonly Bundle<FhirResource>[]): Bundle<FhirResource> {
  const base = 'https://ehr.invalid/fhir';
  const resources = bundles.flatMap((bundle, at) => {
    const text = JSON.stringify(
      (bundle.entry ?? []).flatMap(({ resource }) => (resource && resource.resourceType !== 'CodeSystem' ? [resource] : [])),
    );
    const served = JSON.parse(
      text.replace(/"reference":"([A-Za-z]+)\/([^"]+)"/g, `"reference":"${base}/$1/s${at}-$2/_history/1"`),
    ) as FhirResource[];
    return served.map((resource) => ({ ...resource, id: `s${at}-${resource.id}` }));
  });
  return {
    resourceType: 'Bundle',
    type: 'searchset',
    total: resources.length,
    entry: resources
      .reverse()
      .map((resource) => ({ fullUrl: `${base}/${resource.resourceType}/${resource.id}`, resource, search: { mode: 'match' } })),
  };
}

describe('bundles of ours that come back from a server', () => {
  it('lose nothing and mix nothing: two patients in one search set read as they were sent', () => {
    const [one, other] = [FILES[0] as PatientFile, FILES[1] as PatientFile];
    const back = fromServer([parsed(one), parsed(other)]);
    expect(isOurBundle(back)).toBe(true);
    const read = readOurBundle(back);
    if (read.kind !== 'read') throw new Error(read.reason);
    expect(read.passedOver).toEqual([]);
    const byReference = new Map(read.files.map((file) => [file.details.reference, file]));
    for (const file of [one, other]) expect(byReference.get(file.details.reference)).toEqual(asRead(file));
  });

  it('say what they did not read, by name', () => {
    const back = fromServer([parsed(FILES[2] as PatientFile)]);
    const strange: FhirResource[] = [
      { resourceType: 'AllergyIntolerance', id: 'a1', patient: { reference: 'Patient/s0-subject' } },
      { resourceType: 'Observation', id: 'o1', status: 'final', code: { text: 'pulse' }, subject: { reference: 'Patient/s0-subject' } },
      { resourceType: 'Observation', id: 'o2', status: 'final', code: { text: 'pulse' }, subject: { reference: 'Patient/somebody' } },
    ];
    const read = readOurBundle({ ...back, entry: [...(back.entry ?? []), ...strange.map((resource) => ({ resource }))] });
    expect(read.kind === 'read' && read.passedOver.map((one) => one.split(':')[0])).toEqual([
      'AllergyIntolerance/a1',
      'Observation/o1',
      'Observation/o2',
    ]);
  });

  it('are refused where a value contradicts the text beside it', () => {
    const bundle = parsed(FILES.find(({ visits }) => visits.some(({ height }) => height)) as PatientFile);
    for (const { resource } of bundle.entry ?? [])
      if (resource?.resourceType === 'Observation' && resource.id?.endsWith('-height') && resource.valueQuantity)
        resource.valueQuantity.value = 999;
    expect(readOurBundle(bundle)).toMatchObject({ kind: 'refused', reason: expect.stringContaining('say different things') });
  });
});

describe('a bundle of another program', () => {
  const height = example('body-height.json');
  const weight = (value: number, code: string, more: Partial<Observation> = {}): Observation => ({
    ...height,
    id: `w-${value}`,
    code: { coding: [{ system: 'http://loinc.org', code: '29463-7' }] },
    valueQuantity: { value, system: 'http://unitsofmeasure.org', code },
    ...more,
  });
  const bundleOf = (...resources: FhirResource[]): Bundle<FhirResource> => ({
    resourceType: 'Bundle',
    type: 'collection',
    entry: [
      { resource: { resourceType: 'Patient', id: 'example', birthDate: '1990-01-31', identifier: [{ value: 'X-1' }] } },
      ...resources.map((resource) => ({ resource })),
    ],
  });

  it('yields HL7’s example height without its float tail, and weights in bound units', () => {
    const read = readForeignBundle(
      bundleOf(height, weight(80.5, 'kg'), weight(41_500, 'g', { effectiveDateTime: '2001-01-01T10:00:00Z' })),
    );
    expect(read).toMatchObject({ patients: [{ reference: 'X-1', born: '1990-01-31' }], passedOver: [] });
    expect(read.patients[0]?.body.map(({ day, height, weight }) => [day, height?.text, height?.unit, weight?.text])).toEqual([
      ['1999-07-02', '66.9', 'in', '80.5'],
      ['2001-01-01', undefined, undefined, '41.5'],
    ]);
  });

  it('passes over, with the reason, what is entered in error, has no figure, no day, or another unit', () => {
    const read = readForeignBundle(
      bundleOf(
        weight(1, 'kg', { status: 'entered-in-error' }),
        weight(2, 'kg', { effectiveDateTime: '2023' }),
        weight(3, '[stone_av]'),
        weight(4, 'kg', { valueQuantity: undefined }),
      ),
    );
    expect(read.patients[0]?.body).toEqual([]);
    expect(read.passedOver).toHaveLength(4);
  });

  it('keeps patients apart: each gets what names it, and what names nobody is listed', () => {
    const of = (id: string) => ({ subject: { reference: `Patient/${id}` } });
    const read = readForeignBundle({
      resourceType: 'Bundle',
      type: 'searchset',
      entry: [
        { resource: { resourceType: 'Patient', id: 'p1', birthDate: '1990-01-31', identifier: [{ value: 'X-1' }] } },
        {
          resource: {
            resourceType: 'Patient',
            id: 'p2',
            birthDate: '1960-01-31',
            identifier: [{ value: 'A-77' }, { type: { coding: [{ code: 'MR' }] }, value: 'X-2' }],
          },
        },
        { resource: weight(60, 'kg', of('p1')) },
        { resource: weight(90, 'kg', of('p2')) },
        { resource: weight(75, 'kg', of('p3')) },
        { resource: weight(91, 'kg', of('p2')) },
      ],
    });
    expect(read.patients.map(({ reference, body }) => [reference, body.map(({ weight }) => weight?.text)])).toEqual([
      ['X-1', ['60']],
      ['X-2', ['90']],
    ]);
    expect(read.passedOver).toEqual([
      'Observation/w-75: its subject is not a patient of this bundle.',
      expect.stringMatching(/^Observation\/w-91: another weight of .* which one counts\?/),
    ]);
  });

  it('reads the codes and units that servers send: measured height, standing height, weight with clothes, words for units, instants', () => {
    const coded = (code: string, value: number, unit: string, effective: Partial<Observation>): Observation => ({
      ...height,
      effectiveDateTime: undefined,
      ...effective,
      id: `${code}-${value}`,
      code: { coding: [{ system: 'http://loinc.org', code }] },
      valueQuantity: { value, unit },
    });
    const read = readForeignBundle(
      bundleOf(
        coded('3137-7', 170, 'cm', { effectiveInstant: '2020-01-01T08:00:00Z' }),
        coded('8308-9', 67, 'inches', { effectivePeriod: { start: '2021-01-01', end: '2021-01-02' } }),
        coded('8350-1', 150, 'lbs', { effectivePeriod: { end: '2022-01-01' } }),
        coded('3141-9', 68, 'kg', { effectiveDateTime: '2023-01-01' }),
      ),
    );
    expect(read.passedOver).toEqual([]);
    expect(
      read.patients[0]?.body.map(({ day, height, weight }) => [day, height?.text ?? weight?.text, height?.unit ?? weight?.unit]),
    ).toEqual([
      ['2020-01-01', '170', 'cm'],
      ['2021-01-01', '67', 'in'],
      ['2022-01-01', '150', 'lb'],
      ['2023-01-01', '68', 'kg'],
    ]);
  });
});
