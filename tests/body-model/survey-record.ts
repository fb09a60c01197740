import { measureOf } from '@/lib/parts/catalogue';
import type { NamedMeasure, PatientRecord, Visit } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { lengthOf, massOf } from '@/tests/properties/body-slips';
import { type SurveyPerson, VARIABLES } from './survey';

const DAY = calendarDay('2026-03-02');

/** Variables that are named measures. */
export const MEASURED = VARIABLES.filter((variable) => variable !== 'height' && variable !== 'weight');

/** A person of the survey as a patient with one visit, every figure typed in centimetres to the millimetre. */
export function surveyVisit({ of }: SurveyPerson): Visit {
  const cm = (variable: string) => ((of.get(variable) as number) / 10).toFixed(1);
  return {
    day: DAY,
    time: null,
    posture: null,
    measurer: null,
    note: null,
    ladders: [],
    height: lengthOf(cm('height'), 'cm'),
    weight: massOf((of.get('weight') as number).toFixed(1), 'kg'),
    measures: MEASURED.map((variable) => taken(variable, cm(variable))),
  };
}

/** That visit as a patient's record. */
export function recordWith(sex: PatientRecord['sex'], ...visits: readonly Visit[]): PatientRecord {
  return { reference: 'made up', born: calendarDay('1986-05-04'), sex, affected: [], visits, pieces: [] };
}

/** The visit with one measure typed otherwise, of the right side where both were taken. */
export function withMeasure(visit: Visit, variable: string, text: string): Visit {
  return {
    ...visit,
    measures: (visit.measures ?? []).map((one) => (one.measure === variable && one.side !== 'left' ? taken(variable, text) : one)),
  };
}

function taken(variable: string, text: string): NamedMeasure {
  const measure = measureOf(variable);
  if (!measure) throw new RangeError(`no measure ${variable}`);
  return { part: measure.part, side: measure.sides === 'both' ? 'right' : 'middle', measure: variable, length: lengthOf(text, 'cm') };
}
