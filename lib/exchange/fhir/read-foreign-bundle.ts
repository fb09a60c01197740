import type { Bundle, FhirResource, Observation, Quantity } from 'fhir/r4';
import type { NoAnswer } from '../../outcome';
import type { PatientFile } from '../../record/patient-file';
import type { Sex } from '../../record/patient-record';
import { type CalendarDay, readDay } from '../../units/calendar-day';
import type { TypedLength } from '../../units/length';
import { readMass, type TypedMass } from '../../units/mass';
import { readLength } from '../../units/read-length';
import { resourcesOf } from './read-bundle';
import { BODY } from './visit-resources';

/** What another program knows of a body on a day. */
export type ForeignBody = { readonly day: CalendarDay; readonly height: TypedLength | null; readonly weight: TypedMass | null };

/** Heights and weights of a bundle of another program, and what was passed over with its reason. */
export type ForeignRead = {
  readonly reference: string | null;
  readonly born: CalendarDay | null;
  readonly sex: Sex;
  readonly body: readonly ForeignBody[];
  readonly passedOver: readonly string[];
};

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
 * Heights and weights of a bundle that another program wrote: LOINC 8302-2 and 29463-7 with a day and a UCUM unit.
 *
 * Passed over with its reason: another subject than the first Patient, entered in error or not final, no day, no figure, a unit that is not
 * bound. Nothing is guessed. Source: HL7 FHIR R4, vital signs profiles.
 */
export function readForeignBundle(bundle: Bundle<FhirResource>): ForeignRead {
  const resources = resourcesOf(bundle);
  const patient = resources.find((one) => one.resourceType === 'Patient');
  const born = readDay(patient?.birthDate ?? '');
  const days = new Map<CalendarDay, ForeignBody>();
  const passedOver: string[] = [];
  for (const observation of resources.filter((one) => one.resourceType === 'Observation')) {
    const kind = kindOf(observation);
    if (!kind) continue;
    const read = bodyOf(observation, kind);
    if (typeof read === 'string') passedOver.push(`Observation/${observation.id ?? '?'}: ${read}`);
    else days.set(read.day, { ...(days.get(read.day) ?? { day: read.day, height: null, weight: null }), ...read });
  }
  return {
    reference: patient?.identifier?.[0]?.value ?? null,
    born: born.kind === 'read' ? born.value : null,
    sex: patient?.gender === 'female' ? 'F' : patient?.gender === 'male' ? 'M' : 'X',
    body: [...days.values()].sort((one, other) => one.day.localeCompare(other.day)),
    passedOver,
  };
}

/** Heights and weights of another program as a patient's file: a visit a day, nothing taped; or why there is no patient. */
export function fileOfForeign({ reference, born, sex, body }: ForeignRead, diagnosisGroup: string): PatientFile | NoAnswer {
  if (!reference || !born) return { noAnswer: 'The bundle has no patient with an identifier and a day of birth.' };
  if (body.length === 0) return { noAnswer: 'The bundle has no height and no weight that can be read.' };
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
    cautions: [],
    writings: [],
  };
}

function kindOf(observation: Observation): keyof typeof BODY | undefined {
  const codes = observation.code.coding ?? [];
  const has = (code: string) => codes.some((one) => one.system === 'http://loinc.org' && one.code === code);
  return has(BODY.height.code) ? 'height' : has(BODY.weight.code) ? 'weight' : undefined;
}

type Found = { readonly day: CalendarDay } & Partial<Pick<ForeignBody, 'height' | 'weight'>>;

function bodyOf(observation: Observation, kind: keyof typeof BODY): Found | string {
  if (!['final', 'amended', 'corrected'].includes(observation.status)) return `its status is ${observation.status}.`;
  const day = readDay((observation.effectiveDateTime ?? observation.effectivePeriod?.start ?? '').slice(0, 10));
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
  const unit = LENGTHS[quantity.code ?? ''];
  const reading = unit && readLength(figure(quantity, unit[1]), unit[0]);
  return reading?.kind === 'read' ? { height: reading.value } : undefined;
}

function weightOf(quantity: Quantity): Omit<Found, 'day'> | undefined {
  const unit = MASSES[quantity.code ?? ''];
  const reading = unit && readMass(figure(quantity, unit[1]), unit[0]);
  return reading?.kind === 'read' ? { weight: reading.value } : undefined;
}

function figure({ value = 0 }: Quantity, times: number): string {
  return String(Number((value * times).toPrecision(DIGITS)));
}
