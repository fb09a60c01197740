import type { KeptDoubt } from '../ladder/ladder';
import type { LandmarkId, LimbKind, Side } from '../ladder/limb';
import type { NamedMeasure, Occasion, PartOfSide } from '../record/patient-record';
import type { LengthUnit } from '../units/length';
import type { MassUnit } from '../units/mass';

/** One girth as typed: the first taping, a second one if there was one, and the doubts that were answered "keep". */
export type GirthCell = { readonly text: string; readonly again?: string; readonly kept?: readonly KeptDoubt[]; readonly note?: string };

/** A place that is not on the grid: where it is, as typed, and what it is called. */
export type ExtraPlace = { readonly place: string; readonly name: string };

/** What is typed beside the rungs, once a side or once for both: landmarks on the ruler, and the fold's height above the floor. */
export type MarkName = LandmarkId | 'floor';

/**
 * The ladders of one kind of limb as they are being typed, one column a side.
 *
 * Everything measured is text, kept as typed. `cells` are filed under `cellKey`: the side and the row, where a row of the grid or an
 * extra place is its exact distance in nanometres and the odd last row, which moves with its landmark, is `end`.
 */
export type LimbSheet = {
  readonly limb: LimbKind;
  readonly sides: readonly Side[];
  readonly zero: string;
  readonly direction: 'up' | 'down';
  readonly unit: LengthUnit;
  readonly interval: string;
  /** The first girth stands at zero itself, not one interval on. */
  readonly fromZero: boolean;
  /** The last girth stands at the far landmark, wherever that falls. */
  readonly endRow: boolean;
  /** Rows of the grid as long as the far landmark is not typed: as many as last time. */
  readonly count: number;
  /** Rows of the grid beyond those that the far landmark gives. */
  readonly more: number;
  readonly extras: readonly ExtraPlace[];
  /** Landmarks are typed for each side. */
  readonly apart: boolean;
  readonly marks: Readonly<Record<string, string>>;
  readonly cells: Readonly<Record<string, GirthCell>>;
};

/** A single reading with a name, off the ladders: `heel–instep girth`, `waist`. */
export type SingleReadingText = { readonly name: string; readonly text: string; readonly unit: LengthUnit };

/** A named measure as typed, a second measuring where there was one, and the questions about it that were answered "keep". */
export type MeasureText = Omit<NamedMeasure, 'length' | 'again'> & {
  readonly text: string;
  readonly again?: string;
  readonly unit: LengthUnit;
};

/** A whole visit as it is being typed: what a draft holds and what is sent to be saved. */
export type VisitForm = {
  readonly day: string;
  readonly time: string;
  readonly posture: string;
  readonly measurer: string;
  readonly height: string;
  readonly heightUnit: LengthUnit;
  readonly weight: string;
  readonly massUnit: MassUnit;
  readonly note: string;
  readonly sheets: readonly LimbSheet[];
  readonly readings: readonly SingleReadingText[];
  /** Parts whose named measures are on the sheet, in the order in which they were taken up. */
  readonly parts?: readonly PartOfSide[];
  readonly measures?: readonly MeasureText[];
  /** Height or weight that looked odd and was kept as typed. */
  readonly keptBody?: readonly KeptDoubt[];
  /** Why there is a second visit on this day; empty where there is none. */
  readonly occasion?: Occasion | '';
};

/** Where a cell is filed: `right/38100000`, `left/end`. */
export function cellKey(side: Side, row: string): string {
  return `${side}/${row}`;
}

/** Where a mark is filed: `right/knee`, `left/floor`. */
export function markKey(side: Side, mark: MarkName): string {
  return `${side}/${mark}`;
}

/** The same sheet with one cell changed; an emptied cell is taken away. */
export function withCell(sheet: LimbSheet, key: string, cell: GirthCell): LimbSheet {
  const { [key]: _before, ...others } = sheet.cells;
  const empty = cell.text.trim() === '' && !cell.again?.trim() && !cell.note;
  return { ...sheet, cells: empty ? others : { ...others, [key]: cell } };
}

/** How many girths of one side are typed. Example: three boxes of the left leg filled, one of them with a space → 2. */
export function typedCount(sheet: LimbSheet, side: Side): number {
  return Object.entries(sheet.cells).filter(([key, cell]) => key.startsWith(`${side}/`) && cell.text.trim() !== '').length;
}

/** True when nothing measured has been typed yet, so that there is nothing to keep. */
export function isUntouched(form: VisitForm): boolean {
  const bare = (sheet: LimbSheet) =>
    Object.keys(sheet.cells).length === 0 && Object.values(sheet.marks).every((text) => text.trim() === '');
  return (
    [form.height, form.weight, form.note].every((text) => text.trim() === '') &&
    form.readings.length === 0 &&
    !form.measures?.length &&
    form.sheets.every(bare)
  );
}

/** Whether a form says of each limb how far apart it is measured; where it does not, that is asked first. */
export function isSetUp({ sheets }: Pick<VisitForm, 'sheets'>): boolean {
  return sheets.every(({ interval }) => interval !== '');
}

/** Where a named measure is filed and refused: `left/hand-girth`. */
export function measureKey({ side, measure }: Pick<MeasureText, 'side' | 'measure'>): string {
  return `${side}/${measure}`;
}
