import { measureOf } from '@/lib/parts/catalogue';
import type { NamedMeasure, PatientRecord } from '@/lib/record/patient-record';
import { addDays, calendarDay } from '@/lib/units/calendar-day';
import { lengthOf, massOf } from '@/tests/properties/body-slips';
import { rowsOf } from './survey';

const DAY = calendarDay('2026-03-02');

/** Columns of the children's survey by measure. */
export const CHILD_COLUMNS = {
  'hand-length': 'hand_length',
  'foot-length': 'foot_length',
  'wrist-girth': 'wrist_circ',
  'ankle-girth': 'ankle_circ',
} as const;

export type Child = { readonly ageYears: number; readonly cells: Readonly<Record<string, string>> };

/** Every child of the extract of Snyder 1977, 2 to 18 years. */
export function surveyChildren(): Child[] {
  return rowsOf('snyder1977_hands_feet.csv')
    .map((cells) => ({ ageYears: Number(cells.age_y), cells }))
    .filter(({ ageYears, cells }) => ageYears >= 2 && ageYears < 18 && cells.stature !== '' && cells.weight_hg !== '');
}

/** A child as a patient with one visit, its figures typed in centimetres; `changed` types one of them otherwise. */
export function childRecord({ ageYears, cells }: Child, changed: Readonly<Record<string, string>> = {}): PatientRecord {
  const measures = Object.entries(CHILD_COLUMNS).flatMap(([id, column]): NamedMeasure[] => {
    const measure = measureOf(id);
    const text = changed[id] ?? (cells[column] ? (Number(cells[column]) / 10).toFixed(1) : '');
    return measure && text !== '' ? [{ part: measure.part, side: 'right', measure: id, length: lengthOf(text, 'cm') }] : [];
  });
  const visit = {
    day: DAY,
    time: null,
    posture: null,
    measurer: null,
    note: null,
    ladders: [],
    height: lengthOf((Number(cells.stature) / 10).toFixed(1), 'cm'),
    weight: massOf((Number(cells.weight_hg) / 10).toFixed(1), 'kg'),
    measures,
  };
  const born = addDays(DAY, -Math.round(ageYears * 365.25));
  return { reference: 'made up', born, sex: cells.sex === 'F' ? 'F' : 'M', affected: [], visits: [visit], pieces: [] };
}
