import type { PatientAnalysis } from '../../analysis/analyse-patient';
import type { PatientFile } from '../../record/patient-file';
import type { LimbSide } from '../../record/patient-record';
import type { TypedLength } from '../../units/length';
import type { TypedMass } from '../../units/mass';
import type { CsvRow } from '../csv-table';
import { exactDecimal, KG_DECIMALS, MM_DECIMALS } from '../exact-decimal';

/**
 * What the cells of a column are. It decides their datatype in the dictionary, what is left out of a research export
 * (`identity`, `free-text`, `json`, `moment`; a `day` becomes an age), and whether a spreadsheet could take it for a formula (`isWords`).
 */
export type CellKind = 'id' | 'identity' | 'free-text' | 'word' | 'typed' | 'day' | 'moment' | 'whole' | 'decimal' | 'json';

/** One column: its name, what its cells are, its unit where it has one, and what it says, in a sentence. */
export type Column = {
  readonly name: string;
  readonly kind: CellKind;
  readonly says: string;
  readonly unit?: string;
  /** Tells when something was, beside ages: left out of a research export. */
  readonly tellsWhen?: true;
  /** Tables did not have it from the start: a set without it is read as if it were empty. Columns that came with one addition stand together or not at all. */
  readonly younger?: string;
};

/** A row's cells by column name; a cell that is not there is empty. */
export type Cells = Readonly<Record<string, string>>;

/** One patient on the way out: under which id, the file, and what the engine says of it, worked out when it is asked for. */
export type SetPart = { readonly subjectId: string; readonly file: PatientFile; readonly analysis: () => PatientAnalysis };

/** One table of the set: a kind of thing, a row each. Source: Wickham 2014, Tidy Data, J Stat Softw 59(10). */
export type SetTable = {
  readonly name: string;
  readonly says: string;
  readonly columns: readonly Column[];
  readonly rows: (part: SetPart) => readonly Cells[];
};

export const SUBJECT_ID: Column = { name: 'subject_id', kind: 'id', says: 'The patient, the same in every table of one export.' };
export const VISIT_ID: Column = { name: 'visit_id', kind: 'id', says: 'The visit, the same in every table of one export.' };
export const LADDER_ID: Column = { name: 'ladder_id', kind: 'id', says: 'The ladder of one limb at one visit.' };

/** The id of a visit within an export: its place among the patient's visits. */
export function visitIdIn({ subjectId, file }: SetPart, visitId: string | null): string {
  const place = file.visits.findIndex((visit) => visit.id === visitId);
  return place < 0 ? '' : `${subjectId}-v${place + 1}`;
}

/** The id of a ladder within an export, by the place of its visit among the patient's. */
export function ladderIdIn({ subjectId }: SetPart, place: number, { limb, side }: LimbSide): string {
  return `${subjectId}-v${place + 1}-${side}-${limb}`;
}

/** The three columns of a length or mass: as typed, its unit, and the exact figure. */
export function typedColumns(name: string, says: string, exact: 'mm' | 'kg' = 'mm'): readonly Column[] {
  return [
    { name: `${name}_as_typed`, kind: 'typed', says: `${says}, as it was typed.` },
    { name: `${name}_unit`, kind: 'word', says: `Unit of ${name}_as_typed where the text names none.` },
    { name: `${name}_${exact}`, kind: 'decimal', unit: exact, says: `${says}, exactly.` },
  ];
}

/** The cells of a length that was typed; none for null. */
export function lengthCells(name: string, length: TypedLength | null | undefined): Cells {
  if (!length) return {};
  return { [`${name}_as_typed`]: length.text, [`${name}_unit`]: length.unit, [`${name}_mm`]: exactDecimal(length.nm, MM_DECIMALS) };
}

/** The cells of a mass that was typed; none for null. */
export function massCells(name: string, mass: TypedMass | null): Cells {
  if (!mass) return {};
  return { [`${name}_as_typed`]: mass.text, [`${name}_unit`]: mass.unit, [`${name}_kg`]: exactDecimal(mass.ng, KG_DECIMALS) };
}

/** The rows of one table, all of them or those that belong to an owner by one of its columns. */
export type RowsOf = (table: SetTable, ownerColumn?: string, owner?: string) => readonly CsvRow[];
