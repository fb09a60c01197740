import { ENDED_AS, inOrder, PHASE_KINDS, type Phase, phaseFaults } from '../course/phases';
import type { PatientRecord } from '../record/patient-record';
import { type CsvFault, CsvRefusal, type CsvRow, cutRows, namedRows } from './csv-table';
import { dayCell, oneOfCell, optionalDayCell, refuseCell } from './read-cells';

/** Columns of a phases file, one row a phase of the course of care. */
export const PHASE_COLUMNS = ['patient', 'kind', 'from', 'until', 'baseline_day'] as const;

/** Columns that may stand in it besides: the day to ask again, how a course ended, why. */
const MORE_COLUMNS = ['ask_on', 'ended_as', 'note'] as const;

const COLUMN_OF: Readonly<Record<keyof Phase, (typeof PHASE_COLUMNS | typeof MORE_COLUMNS)[number]>> = {
  kind: 'kind',
  from: 'from',
  until: 'until',
  baselineDay: 'baseline_day',
  askOn: 'ask_on',
  endedAs: 'ended_as',
  note: 'note',
};

/** The rows of a phases file, cut and named; refuses (CsvRefusal) what is no such file. */
export function phaseRows(text: string): readonly CsvRow[] {
  const cut = cutRows(text);
  const header = cut[0]?.cells.map((name) => name.trim()) ?? [];
  return namedRows(cut, [...PHASE_COLUMNS, ...MORE_COLUMNS.filter((column) => header.includes(column))]);
}

/**
 * One patient with the phases of their rows, or the first fault in them: line, column, reason.
 *
 * A patient without a row has no phases. Refuses cells that cannot be read, then what contradicts (`phaseFaults`).
 * Shape: a record of the ladders file and its rows; for files whose patients are read one by one. Source: the layout of the command line (README).
 */
export function withPhases(
  record: PatientRecord,
  rows: readonly CsvRow[],
): { kind: 'read'; record: PatientRecord } | { kind: 'fault'; fault: CsvFault } {
  if (rows.length === 0) return { kind: 'read', record };
  try {
    return { kind: 'read', record: { ...record, phases: readPhases(rows, record) } };
  } catch (error) {
    if (error instanceof CsvRefusal) return { kind: 'fault', fault: error.fault };
    throw error;
  }
}

/** The phases of rows, in order; refuses (CsvRefusal) at the first row and column that cannot be read, or that contradicts. */
export function readPhases(rows: readonly CsvRow[], { born, visits }: Pick<PatientRecord, 'born' | 'visits'>): readonly Phase[] {
  const rowOf = new Map(rows.map((row) => [readPhase(row), row]));
  const phases = [...rowOf.keys()];
  const lineOf = (phase: Phase): number => rowOf.get(phase)?.line ?? 0;
  const faults = phaseFaults(phases, born, new Set(visits.map(({ day }) => day)));
  const [fault] = [...faults].sort((one, other) => lineOf(one.phase) - lineOf(other.phase));
  if (fault) refuseCell(rowOf.get(fault.phase) as CsvRow, COLUMN_OF[fault.field], fault.reason);
  return inOrder(phases);
}

function readPhase(row: CsvRow): Phase {
  const days = row.cell('baseline_day').split(/[\s,;/]+/);
  if (days.length > 1 && days.every((day) => /^\d{4}-\d{2}-\d{2}$/.test(day)))
    return refuseCell(row, 'baseline_day', `A phase has one baseline; ${days.length} days stand here.`);
  return {
    kind: oneOfCell(row, 'kind', PHASE_KINDS),
    from: dayCell(row, 'from'),
    until: optionalDayCell(row, 'until'),
    baselineDay: optionalDayCell(row, 'baseline_day'),
    ...(row.cell('ask_on') && { askOn: dayCell(row, 'ask_on') }),
    ...(row.cell('ended_as') && { endedAs: oneOfCell(row, 'ended_as', ENDED_AS) }),
    ...(row.cell('note') && { note: row.cell('note') }),
  };
}
