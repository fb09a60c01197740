import type { Reading } from '../outcome';
import { type CalendarDay, readDay } from '../units/calendar-day';
import { asNanometres, type LengthUnit, type TypedLength } from '../units/length';
import { readMass, type TypedMass } from '../units/mass';
import { readLength } from '../units/read-length';
import { CsvRefusal, type CsvRow } from './csv-table';

/** Refuses the cell with a reason. Never returns. */
export function refuseCell(row: CsvRow, column: string, reason: string): never {
  throw new CsvRefusal({ ...(row.file && { file: row.file }), line: row.line, column: row.named?.(column) ?? column, reason });
}

/** The value of a reading, or a refusal of the cell with its reason. */
export function accepted<T>(row: CsvRow, column: string, reading: Reading<T>): T {
  if (reading.kind !== 'read') return refuseCell(row, column, reading.reason);
  return reading.value;
}

/** A cell that must be one of a few words. */
export function oneOfCell<T extends string>(row: CsvRow, column: string, words: readonly T[]): T {
  const text = row.cell(column);
  const word = words.find((one) => one === text);
  return word ?? refuseCell(row, column, `“${text}” is not one of ${words.join(', ')}.`);
}

/** A cell that must not be empty. */
export function filledCell(row: CsvRow, column: string): string {
  return row.cell(column) || refuseCell(row, column, 'This cell is empty.');
}

/** A calendar day, `YYYY-MM-DD`. */
export function dayCell(row: CsvRow, column: string): CalendarDay {
  return accepted(row, column, readDay(filledCell(row, column)));
}

/** A calendar day or nothing. */
export function optionalDayCell(row: CsvRow, column: string): CalendarDay | null {
  return row.cell(column) === '' ? null : dayCell(row, column);
}

/** A length in the row's own unit; nought is allowed for distances only. */
export function lengthCell(row: CsvRow, column: string, unit: LengthUnit, noughtAllowed = false): TypedLength {
  const text = filledCell(row, column);
  if (noughtAllowed && /^0+([.,]0+)?$/.test(text)) return { text, unit, nm: asNanometres(0) };
  return accepted(row, column, readLength(text, unit, true));
}

/** A length that carries its own unit, `112.5 cm`, or nothing. */
export function lengthWithUnitCell(row: CsvRow, column: string): TypedLength | null {
  const text = row.cell(column);
  if (text === '') return null;
  if (!/[a-z"″”'′’]/i.test(text)) return refuseCell(row, column, `“${text}” has no unit. Write it as ${text} cm or ${text} in.`);
  return accepted(row, column, readLength(text, 'cm'));
}

/** A mass that carries its own unit, `42 3/4 lb`, or nothing. */
export function massWithUnitCell(row: CsvRow, column: string): TypedMass | null {
  const text = row.cell(column);
  if (text === '') return null;
  if (!/[a-z]/i.test(text)) return refuseCell(row, column, `“${text}” has no unit. Write it as ${text} kg or ${text} lb.`);
  return accepted(row, column, readMass(text, 'kg'));
}

/** A whole number of days, 0 or more. Example: `21` → 21; `3 weeks` is refused. */
export function wholeDaysCell(row: CsvRow, column: string): number {
  const text = filledCell(row, column);
  if (!/^\d{1,5}$/.test(text)) return refuseCell(row, column, `“${text}” is not a whole number of days.`);
  return Number(text);
}

/** Larger than any limb, mm; it is refused, because no person is meant. Clinic default. */
const LARGEST_GIRTH_MM = 2500;

/** A girth, or another length of a body, in the row's own unit. */
export function girthCell(row: CsvRow, unit: LengthUnit): TypedLength {
  const girth = lengthCell(row, 'girth', unit);
  if (girth.nm / 1e6 > LARGEST_GIRTH_MM)
    refuseCell(
      row,
      'girth',
      `“${girth.text}” ${unit} is larger than any limb. ${/^\d{5}$/.test(girth.text) ? 'Is it the serial number of a date?' : 'Is it a girth?'}`,
    );
  return girth;
}
