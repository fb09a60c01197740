import type { PatientFile } from '../../record/patient-file';
import type { PatientRecord } from '../../record/patient-record';
import type { CalendarDay } from '../../units/calendar-day';
import { type CsvFault, CsvRefusal, namedRows } from '../csv-table';
import { LADDER_COLUMNS } from '../ladder-cells';
import { readLadderRows } from '../read-ladders-csv';
import { visitHeading } from './guess-mapping';
import { longRows } from './long-rows';
import { mended } from './lost-points';
import type { Mapping } from './mapping';
import { placesDownRows } from './places-down-rows';
import { hasShortYear } from './spreadsheet-day';
import type { TranslatedRows } from './spreadsheet-row';
import type { TextTable } from './text-table';
import { hasBareFigures } from './units-said';
import { visitsDownRows } from './visits-down-rows';

/** Patients whose cells are all good, and every bad cell of the others. */
export type SpreadsheetRead = { readonly patients: readonly PatientFile[]; readonly faults: readonly CsvFault[] };

/** What a mapping still lacks, each with its answer's name, so that a form can say it beside its box. */
export function unanswered(mapping: Mapping, table: TextTable): readonly (keyof Mapping)[] {
  if (mapping.layout === 'rungs') return [];
  const inColumn = (role: Mapping['roles'][number]) => ['visits-down', 'long'].includes(mapping.layout) && mapping.roles.includes(role);
  return [
    ...(mapping.dayOrder === null ? (['dayOrder'] as const) : []),
    ...(mapping.lastYear === null && hasShortYears(table, mapping) ? (['lastYear'] as const) : []),
    ...(mapping.unit === '' && !inColumn('unit') ? (['unit'] as const) : []),
    ...(mapping.heightUnit === '' && hasBareFigures(table, mapping, 'height') ? (['heightUnit'] as const) : []),
    ...(mapping.weightUnit === '' && hasBareFigures(table, mapping, 'weight') ? (['weightUnit'] as const) : []),
    ...(mapping.reference.trim() === '' && !inColumn('reference') ? (['reference'] as const) : []),
    ...(mapping.born.trim() === '' && !inColumn('born') ? (['born'] as const) : []),
    ...(mapping.sex === '' && !inColumn('sex') ? (['sex'] as const) : []),
    ...(mapping.limb === '' && !inColumn('limb') ? (['limb'] as const) : []),
    ...(mapping.zero.trim() === '' ? (['zero'] as const) : []),
    ...(NEEDED[mapping.layout].every((role) => mapping.roles.includes(role)) ? [] : (['roles'] as const)),
  ];
}

/** What some column must hold, by layout. */
const NEEDED: Readonly<Record<Mapping['layout'], readonly Mapping['roles'][number][]>> = {
  rungs: [],
  'places-down': ['visit'],
  'visits-down': ['place', 'day'],
  long: ['day', 'distance', 'girth'],
};

/** Whether a day of the table, of a visit or of birth, has a year of two figures. */
function hasShortYears({ rows, more = [] }: TextTable, mapping: Mapping): boolean {
  const [header, ...body] = rows;
  if (mapping.layout === 'places-down') return (header?.cells ?? []).some((cell) => hasShortYear(visitHeading(cell)));
  const columns = mapping.roles.flatMap((role, index) => (role === 'day' || role === 'born' ? [index] : []));
  return (
    body.some(({ cells }) => columns.some((index) => hasShortYear(cells[index] ?? ''))) || more.some((one) => hasShortYears(one, mapping))
  );
}

/**
 * The patients of a spreadsheet as a mapping says, each as a file with ladders and nothing else; rows of the ladders layout also bring named measures.
 *
 * A patient with one bad cell is left out whole, and the cell is named by line and column with its reason. Figures stay as they were typed.
 * Shape: the table, the mapping, and the last day a visit may have.
 */
export function readSpreadsheet(table: TextTable, mapping: Mapping, today: CalendarDay): SpreadsheetRead {
  const { rows, faults } = translatedAll(mended(table, mapping), mapping);
  const read = readLadderRows(rows, today, mapping.layout === 'rungs' ? 'kept' : 'refused');
  const all = [...faults, ...read.faults].sort((one, other) => one.line - other.line);
  return { patients: faults.length > 0 ? [] : read.records.map((record) => patientFileOf(record, mapping.diagnosisGroup)), faults: all };
}

/** The rows of a table and of those of its kind beside it, one after the other: what belongs to one visit comes together by patient, day and limb. */
function translatedAll(table: TextTable, mapping: Mapping): TranslatedRows {
  const parts = [table, ...(table.more ?? [])].map((one) => translated(one, mapping));
  return { rows: parts.flatMap(({ rows }) => rows), faults: parts.flatMap(({ faults }) => faults) };
}

function translated(table: TextTable, mapping: Mapping): TranslatedRows {
  if (mapping.layout === 'places-down') return placesDownRows(table, mapping);
  if (mapping.layout === 'visits-down') return visitsDownRows(table, mapping);
  if (mapping.layout === 'long') return longRows(table, mapping);
  try {
    return { rows: namedRows(table.rows, LADDER_COLUMNS), faults: [] };
  } catch (error) {
    if (error instanceof CsvRefusal) return { rows: [], faults: [error.fault] };
    throw error;
  }
}

/** A record of ladders as a file: no name, the group that was chosen, everything else empty. */
export function patientFileOf(
  { reference, born, sex, affected, affectedParts, visits }: PatientRecord,
  diagnosisGroup: string,
): PatientFile {
  return {
    details: {
      reference,
      name: null,
      born,
      sex,
      diagnosisGroup,
      affected,
      ...(affectedParts ? { affectedParts } : {}),
      language: 'en',
      note: null,
    },
    visits: visits.map((visit, index) => ({
      ...visit,
      id: `visit-${index + 1}`,
      readings: null,
      ladders: visit.ladders.map((ladder) => ({ ...ladder, intervalText: null, zeroChoice: null })),
    })),
    pieces: [],
    orders: [],
    events: [],
    phases: [],
    cautions: [],
    writings: [],
  };
}
