import type { z } from 'zod';
import type { LandmarkId, LimbKind } from '../../ladder/limb';
import { isLandmarkOf } from '../../ladder/limb';
import type { CoverEnd } from '../../record/patient-record';
import type { CalendarDay } from '../../units/calendar-day';
import { asNanometres, type LengthUnit, type TypedLength } from '../../units/length';
import { type MassUnit, readMass, type TypedMass } from '../../units/mass';
import { readLength } from '../../units/read-length';
import type { CsvRow } from '../csv-table';
import { KG_DECIMALS, MM_DECIMALS, partsOfDecimal } from '../exact-decimal';
import { isMoment, readJson } from '../filed-json';
import { oneOfCell, optionalDayCell, refuseCell } from '../read-cells';

/** A cell, or null when it is empty. */
export function cellOrNull(row: CsvRow, column: string): string | null {
  return row.cell(column) || null;
}

/** A length from its three cells, or null when they are empty. Refuses a text and a figure that say different things. */
export function typedLengthCells(row: CsvRow, name: string): TypedLength | null {
  const text = row.cell(`${name}_as_typed`);
  if (text === '' && row.cell(`${name}_mm`) === '') return null;
  const unit = oneOfCell<LengthUnit>(row, `${name}_unit`, ['in', 'cm']);
  const nm = partsCell(row, `${name}_mm`, MM_DECIMALS);
  const again = readLength(text, unit);
  const said = /^0+([.,]0+)?$/.test(text) ? 0 : again.kind === 'read' ? again.value.nm : undefined;
  if (said !== nm) return refuseCell(row, `${name}_mm`, `“${text}” ${unit} is not ${row.cell(`${name}_mm`)} mm. Mend one of the two.`);
  return { text, unit, nm: asNanometres(nm) };
}

/** A length that must be there. */
export function neededLengthCells(row: CsvRow, name: string): TypedLength {
  return typedLengthCells(row, name) ?? refuseCell(row, `${name}_as_typed`, 'This cell is empty.');
}

/** A mass from its three cells, or null when they are empty. Refuses a text and a figure that say different things. */
export function typedMassCells(row: CsvRow, name: string): TypedMass | null {
  const text = row.cell(`${name}_as_typed`);
  if (text === '' && row.cell(`${name}_kg`) === '') return null;
  const unit = oneOfCell<MassUnit>(row, `${name}_unit`, ['kg', 'lb']);
  const ng = partsCell(row, `${name}_kg`, KG_DECIMALS);
  const again = readMass(text, unit);
  if (again.kind !== 'read' || again.value.ng !== ng)
    return refuseCell(row, `${name}_kg`, `“${text}” ${unit} is not ${row.cell(`${name}_kg`)} kg. Mend one of the two.`);
  return { text, unit, ng };
}

function partsCell(row: CsvRow, column: string, decimals: number): number {
  const parts = partsOfDecimal(row.cell(column), decimals);
  return parts ?? refuseCell(row, column, `“${row.cell(column)}” is not a decimal figure.`);
}

/** One end of what a piece covers. */
export function coverEndCells(row: CsvRow, end: 'from' | 'to', limb: LimbKind): CoverEnd {
  const landmark = row.cell(`covers_${end}_landmark`);
  return landmark === '' ? neededLengthCells(row, `covers_${end}`) : landmarkCell(row, `covers_${end}_landmark`, limb);
}

/** A landmark of that limb. */
export function landmarkCell(row: CsvRow, column: string, limb: LimbKind): LandmarkId {
  const text = row.cell(column);
  return isLandmarkOf(limb, text) ? text : refuseCell(row, column, `“${text}” is not a landmark of the ${limb}.`);
}

/** A part in JSON, or null when the cell is empty. */
export function jsonCell<T>(row: CsvRow, column: string, shape: z.ZodType<T>): T | null {
  const text = row.cell(column);
  if (text === '') return null;
  const found = readJson(text, shape);
  return found.kind === 'read' ? found.value : refuseCell(row, column, found.reason);
}

/** A number as it was written. Example: `0.25` → 0.25; an empty cell is refused. */
export function numberCell(row: CsvRow, column: string): number {
  const text = row.cell(column);
  const value = Number(text);
  return text !== '' && Number.isFinite(value) ? value : refuseCell(row, column, `“${text}” is not a number.`);
}

/** A moment, `2026-03-02T09:30:00.000Z`. */
export function momentCell(row: CsvRow, column: string): string {
  const text = row.cell(column);
  return isMoment(text) ? text : refuseCell(row, column, `“${text}” is not a moment.`);
}

/** A day or null. */
export function dayOrNull(row: CsvRow, column: string): CalendarDay | null {
  return optionalDayCell(row, column);
}
