import { refusedDay } from '../course/visit-days';
import type { LimbSide, NamedMeasure, PartOfSide, Sex, Visit } from '../record/patient-record';
import type { CalendarDay } from '../units/calendar-day';
import { CsvRefusal, type CsvRow } from './csv-table';
import { LADDER_COLUMNS, timeCell } from './ladder-cells';
import type { LadderDraft } from './ladder-of-rows';
import { dayCell, filledCell, lengthWithUnitCell, massWithUnitCell, oneOfCell, refuseCell } from './read-cells';

/** Columns that say whose visit a row is of, and what was taken once in it. */
const VISIT_COLUMNS = LADDER_COLUMNS.slice(0, LADDER_COLUMNS.indexOf('limb'));

type Draft<T> = { -readonly [key in keyof T]: T[key] };
/** A visit while its rows are read. */
export type VisitDraft = Omit<Draft<Visit>, 'ladders' | 'measures'> & { ladders: LadderDraft[]; measures: NamedMeasure[] };
/** A patient while its rows are read. */
export type PatientDraft = {
  reference: string;
  born: CalendarDay;
  sex: Sex;
  affected: Map<string, { of: LimbSide | PartOfSide; affected: boolean }>;
  visits: VisitDraft[];
};

/** Whose visit a row is of, and which. */
export type OfRow = { readonly patient: PatientDraft; readonly visit: VisitDraft };

/** The patient and the visit of each row. Most rows repeat the head of the row before them, and say nothing new of either. */
export function visitReader(patients: Map<string, PatientDraft>, today: CalendarDay): (row: CsvRow) => OfRow {
  let before: { readonly head: string; readonly of: OfRow } | undefined;
  return (row) => {
    if (row.fault) throw new CsvRefusal(row.fault);
    const head = VISIT_COLUMNS.map((column) => row.cell(column)).join('\u0000');
    if (before?.head === head) return before.of;
    const patient = patientOf(row, patients);
    const of = { patient, visit: visitOf(row, patient, today) };
    before = { head, of };
    return of;
  };
}

function patientOf(row: CsvRow, patients: Map<string, PatientDraft>): PatientDraft {
  const reference = filledCell(row, 'patient');
  const born = dayCell(row, 'born');
  const sex = oneOfCell(row, 'sex', ['F', 'M', 'X'] as const);
  const known = patients.get(reference);
  if (!known) {
    const fresh: PatientDraft = { reference, born, sex, affected: new Map(), visits: [] };
    patients.set(reference, fresh);
    return fresh;
  }
  if (known.born !== born) refuseCell(row, 'born', `An earlier row says ${known.born} for ${reference}.`);
  if (known.sex !== sex) refuseCell(row, 'sex', `An earlier row says ${known.sex} for ${reference}.`);
  return known;
}

function visitOf(row: CsvRow, patient: PatientDraft, today: CalendarDay): VisitDraft {
  const day = dayCell(row, 'day');
  const refused = refusedDay(day, { born: patient.born, today });
  if (refused) refuseCell(row, 'day', refused);
  const time = timeCell(row);
  const figures = {
    posture: row.cell('posture') || null,
    measurer: row.cell('measurer') || null,
    height: lengthWithUnitCell(row, 'height'),
    weight: massWithUnitCell(row, 'weight'),
  };
  const known = visitAt(patient.visits, day, time);
  if (!known) {
    const fresh: VisitDraft = { day, time, ...figures, note: null, ladders: [], measures: [] };
    patient.visits.push(fresh);
    return fresh;
  }
  for (const column of ['posture', 'measurer'] as const) {
    if (figures[column] !== null && known[column] !== null && figures[column] !== known[column])
      refuseCell(row, column, `An earlier row of this visit says ${known[column]}.`);
    known[column] ??= figures[column];
  }
  if (figures.height && known.height && figures.height.nm !== known.height.nm)
    refuseCell(row, 'height', `An earlier row of this visit says ${known.height.text}.`);
  if (figures.weight && known.weight && figures.weight.ng !== known.weight.ng)
    refuseCell(row, 'weight', `An earlier row of this visit says ${known.weight.text}.`);
  known.time ??= time;
  known.height ??= figures.height;
  known.weight ??= figures.weight;
  return known;
}

/** The visit of a day and time; a row without a time goes with the day's last visit, and a first time with the one that has none yet. */
function visitAt(visits: readonly VisitDraft[], day: CalendarDay, time: string | null): VisitDraft | undefined {
  const ofDay = visits.filter((visit) => visit.day === day);
  if (time === null) return ofDay.at(-1);
  return ofDay.find((visit) => visit.time === time) ?? ofDay.find((visit) => visit.time === null);
}
