import type { Bundle, FhirResource, Observation, Patient, Quantity } from 'fhir/r4';
import type { NoAnswer } from '../../outcome';
import type { PatientFile } from '../../record/patient-file';
import type { Sex } from '../../record/patient-record';
import { type CalendarDay, readDay } from '../../units/calendar-day';
import type { TypedLength } from '../../units/length';
import { readMass, type TypedMass } from '../../units/mass';
import { readLength } from '../../units/read-length';
import { type BundleGraph, bundleGraph } from './bundle-graph';
import type { BODY } from './visit-resources';

/** What another program knows of a body on a day. */
export type ForeignBody = { readonly day: CalendarDay; readonly height: TypedLength | null; readonly weight: TypedMass | null };

/** Heights and weights of one patient of a bundle that another program wrote. */
export type ForeignPatient = {
  readonly reference: string | null;
  readonly born: CalendarDay | null;
  readonly sex: Sex;
  readonly body: readonly ForeignBody[];
};

/** The patients of such a bundle, each on their own, and what was passed over with its reason. */
export type ForeignRead = { readonly patients: readonly ForeignPatient[]; readonly passedOver: readonly string[] };

/** UCUM codes that heights and weights come in, with how they are typed here and how many of that unit one is. */
const LENGTHS: Readonly<Record<string, readonly [unit: 'cm' | 'in', times: number]>> = {
  cm: ['cm', 1],
  m: ['cm', 100],
  mm: ['cm', 0.1],
  '[in_i]': ['in', 1],
};
const MASSES: Readonly<Record<string, readonly [unit: 'kg' | 'lb', times: number]>> = {
  kg: ['kg', 1],
  g: ['kg', 0.001],
  '[lb_av]': ['lb', 1],
};

/** Significant digits that are believed: a tail beyond them comes from a float, as in 66.899999999999991 for 66.9. */
const DIGITS = 9;

/**
 * Heights and weights that another program wrote, each patient's own: LOINC codes of a measured or stated height and weight, a day, a unit.
 *
 * Passed over with its reason: what names no patient of the bundle, entered in error or not final, no day, no figure, a unit that is not
 * read, two different figures of one day, any other code or kind of resource. Nothing is guessed and nothing reaches another patient.
 * Source: HL7 FHIR R4, vital signs profiles; LOINC 2.7x, codes of `CODES`.
 */
export function readForeignBundle(bundle: Bundle<FhirResource>): ForeignRead {
  const graph = bundleGraph(bundle);
  const days = new Map<Patient, Map<CalendarDay, ForeignBody>>(graph.patients.map((patient) => [patient, new Map()]));
  const passedOver: string[] = [];
  for (const resource of graph.resources) {
    if (resource.resourceType === 'Patient') continue;
    const why = resource.resourceType === 'Observation' ? take(resource, days, graph) : 'this kind of resource is not read.';
    if (why) passedOver.push(`${resource.resourceType}/${resource.id ?? '?'}: ${why}`);
  }
  const patients = graph.patients.map((patient): ForeignPatient => {
    const born = readDay(patient.birthDate ?? '');
    return {
      reference: referenceOf(patient),
      born: born.kind === 'read' ? born.value : null,
      sex: patient.gender === 'female' ? 'F' : patient.gender === 'male' ? 'M' : 'X',
      body: [...(days.get(patient)?.values() ?? [])].sort((one, other) => one.day.localeCompare(other.day)),
    };
  });
  return { patients, passedOver };
}

/** The number a patient is filed under: a medical record number before any other identifier. Source: HL7 v2 table 0203, MR. */
function referenceOf({ identifier = [] }: Patient): string | null {
  const medical = identifier.find(({ type }) => type?.coding?.some(({ code }) => code === 'MR'));
  return (medical ?? identifier[0])?.value ?? null;
}

/** Puts a figure to its patient and day; or why it is passed over. */
function take(observation: Observation, days: Map<Patient, Map<CalendarDay, ForeignBody>>, graph: BundleGraph): string | undefined {
  const kind = kindOf(observation);
  if (!kind) return 'its code is not one of height or weight.';
  const patient = graph.patientOf(observation);
  const of = patient && days.get(patient);
  if (!of) return 'its subject is not a patient of this bundle.';
  const read = bodyOf(observation, kind);
  if (typeof read === 'string') return read;
  const before = of.get(read.day) ?? { day: read.day, height: null, weight: null };
  const known = kind === 'height' ? before.height?.nm : before.weight?.ng;
  const now = kind === 'height' ? read.height?.nm : read.weight?.ng;
  if (known !== undefined && known !== now)
    return `another ${kind} of ${read.day} stands in the bundle: which one counts? The first was taken.`;
  of.set(read.day, { ...before, ...read });
  return undefined;
}

/** A patient of another program as a file: a visit a day, no ladder; or why there is none. */
export function fileOfForeign({ reference, born, sex, body }: ForeignPatient, diagnosisGroup: string): PatientFile | NoAnswer {
  if (!reference || !born)
    return {
      noAnswer: `The patient ${reference ?? 'without an identifier'} has no ${reference ? 'day of birth' : 'number to be filed under'}.`,
    };
  if (body.length === 0) return { noAnswer: `The patient ${reference} has no height and no weight that can be read.` };
  return {
    details: { reference, name: null, born, sex, diagnosisGroup, affected: [], language: 'en', note: null },
    visits: body.map((figures, index) => ({
      ...figures,
      id: `visit-${index + 1}`,
      time: null,
      posture: null,
      measurer: null,
      note: null,
      readings: null,
      ladders: [],
    })),
    pieces: [],
    orders: [],
    events: [],
    phases: [],
    cautions: [],
    writings: [],
  };
}

/** LOINC codes that are read. Height: stated, measured, standing. Weight: stated, measured, with clothes. Source: LOINC. */
const CODES: Readonly<Record<keyof typeof BODY, readonly string[]>> = {
  height: ['8302-2', '3137-7', '8308-9'],
  weight: ['29463-7', '3141-9', '8350-1'],
};

function kindOf({ code }: Observation): keyof typeof BODY | undefined {
  const has = (codes: readonly string[]) => code.coding?.some((one) => one.system === 'http://loinc.org' && codes.includes(one.code ?? ''));
  return has(CODES.height) ? 'height' : has(CODES.weight) ? 'weight' : undefined;
}

type Found = { readonly day: CalendarDay } & Partial<Pick<ForeignBody, 'height' | 'weight'>>;

function bodyOf(observation: Observation, kind: keyof typeof BODY): Found | string {
  if (!['final', 'amended', 'corrected'].includes(observation.status)) return `its status is ${observation.status}.`;
  const { effectiveDateTime, effectiveInstant, effectivePeriod } = observation;
  const day = readDay((effectiveDateTime ?? effectiveInstant ?? effectivePeriod?.start ?? effectivePeriod?.end ?? '').slice(0, 10));
  if (day.kind !== 'read') return 'it has no day.';
  const quantity = observation.valueQuantity;
  if (quantity?.value === undefined || quantity.comparator) return 'it has no figure.';
  return kind === 'height' ? withFigure(day.value, quantity, heightOf) : withFigure(day.value, quantity, weightOf);
}

function withFigure(day: CalendarDay, quantity: Quantity, read: (quantity: Quantity) => Omit<Found, 'day'> | undefined): Found | string {
  const figure = read(quantity);
  return figure ? { day, ...figure } : `its unit ${quantity.code ?? quantity.unit ?? '(none)'} is not one that is read.`;
}

function heightOf(quantity: Quantity): Omit<Found, 'day'> | undefined {
  const unit = LENGTHS[unitOf(quantity)];
  const reading = unit && readLength(figure(quantity, unit[1]), unit[0]);
  return reading?.kind === 'read' ? { height: reading.value } : undefined;
}

function weightOf(quantity: Quantity): Omit<Found, 'day'> | undefined {
  const unit = MASSES[unitOf(quantity)];
  const reading = unit && readMass(figure(quantity, unit[1]), unit[0]);
  return reading?.kind === 'read' ? { weight: reading.value } : undefined;
}

function figure({ value = 0 }: Quantity, times: number): string {
  return String(Number((value * times).toPrecision(DIGITS)));
}

/** The unit of a Quantity: its UCUM code, else what people write. */
function unitOf({ code, unit }: Quantity): string {
  if (code) return code;
  const word = (unit ?? '').trim().toLowerCase().replace(/\.$/, '');
  return SPOKEN[word] ?? word;
}

const SPOKEN: Readonly<Record<string, string>> = {
  in: '[in_i]',
  inch: '[in_i]',
  inches: '[in_i]',
  lb: '[lb_av]',
  lbs: '[lb_av]',
  kgs: 'kg',
};
