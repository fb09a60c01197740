import type { PatientRecord } from '../record/patient-record';
import { inOrder, PHASE_KINDS, type Phase, phaseFaults } from '../record/phases';
import { type CsvFault, CsvRefusal, type CsvRow, csvRows } from './csv-table';
import { dayCell, filledCell, oneOfCell, optionalDayCell, refuseCell } from './read-cells';

/** Columns of a phases file, one row a phase of the course of care. */
export const PHASE_COLUMNS = ['patient', 'kind', 'from', 'until', 'baseline_day'] as const;

const COLUMN_OF: Readonly<Record<keyof Phase, string>> = { kind: 'kind', from: 'from', until: 'until', baselineDay: 'baseline_day' };

/** The rows of a phases file, cut and named; refuses (CsvRefusal) what is no such file. */
export function phaseRows(text: string): readonly CsvRow[] {
  return csvRows(text, PHASE_COLUMNS);
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
    const lines = new Map(rows.map((row) => [readPhase(row), row]));
    const phases = [...lines.keys()];
    const faults = phaseFaults(phases, record.born, new Set(record.visits.map(({ day }) => day))).map(({ phase, field, reason }) => ({
      line: lines.get(phase)?.line ?? 0,
      column: COLUMN_OF[field],
      reason,
    }));
    const [fault] = faults.sort((one, other) => one.line - other.line);
    return fault ? { kind: 'fault', fault } : { kind: 'read', record: { ...record, phases: inOrder(phases) } };
  } catch (error) {
    if (error instanceof CsvRefusal) return { kind: 'fault', fault: error.fault };
    throw error;
  }
}

function readPhase(row: CsvRow): Phase {
  const days = row.cell('baseline_day').split(/[\s,;/]+/);
  if (days.length > 1 && days.every((day) => /^\d{4}-\d{2}-\d{2}$/.test(day)))
    return refuseCell(row, 'baseline_day', `A phase has one baseline; ${days.length} days stand here.`);
  filledCell(row, 'patient');
  return {
    kind: oneOfCell(row, 'kind', PHASE_KINDS),
    from: dayCell(row, 'from'),
    until: optionalDayCell(row, 'until'),
    baselineDay: optionalDayCell(row, 'baseline_day'),
  };
}
