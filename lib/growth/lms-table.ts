/** The three numbers of one sex at one age: power, median, coefficient of variation. */
export type Lms = { readonly l: number; readonly m: number; readonly s: number };

/**
 * A column of a table: its figures as text, one an age, blanks between (one alone holds at every age); or, of a table by day, whole
 * parts of the last decimal: the first figure, the first step, and from then on how much each step differs from the one before it. A
 * smooth column is a tenth as long so, and the figures that come back are those published, to the digit.
 */
export type LmsColumn = string | { readonly decimals: number; readonly bends: string };

type LmsColumns = { readonly l: LmsColumn; readonly m: LmsColumn; readonly s: LmsColumn };

/** A growth table as it is kept: the figures as published, never rounded. */
export type LmsText = {
  readonly name: string;
  readonly edition: string;
  readonly ageUnit: 'day' | 'month';
  readonly ages: string | { readonly first: number; readonly last: number };
  readonly M: LmsColumns;
  readonly F: LmsColumns;
};

/** A growth table for one sex, ready for arithmetic. Ages rise strictly. */
type LmsRows = { readonly ages: Float64Array; readonly l: Float64Array; readonly m: Float64Array; readonly s: Float64Array };

const decoded = new WeakMap<LmsText, { M: LmsRows; F: LmsRows }>();

/** The figures of a column as published. Example: `{ decimals: 1, bends: '100 5 -2 0' }` → 10, 10.5, 10.8, 11.1. */
export function figuresOf(column: LmsColumn): readonly string[] {
  if (typeof column === 'string') return column.split(' ');
  let [figure, step] = [0, 0];
  return column.bends.split(' ').map((bend, row) => {
    step = row < 2 ? Number(bend) : step + Number(bend);
    figure += step;
    return String(figure / 10 ** column.decimals);
  });
}

/** Figures of one column; a single figure is repeated for every age. */
function column(of: LmsColumn, count: number): Float64Array {
  const figures = figuresOf(of);
  if (figures.length === 1) return new Float64Array(count).fill(Number(figures[0]));
  if (figures.length !== count) throw new RangeError(`a growth column has ${figures.length} figures for ${count} ages`);
  return Float64Array.from(figures, Number);
}

/** The ages of a table, in its own unit, as they were published. Example: first 24, last 27: 24, 25, 26, 27. */
export function agesOf(text: LmsText): readonly string[] {
  const { ages } = text;
  if (typeof ages === 'string') return ages.split(' ');
  return Array.from({ length: ages.last - ages.first + 1 }, (_, step) => String(ages.first + step));
}

/** Text is decoded on first use only, so a program that reads no growth table pays nothing. */
function rowsOf(text: LmsText): { M: LmsRows; F: LmsRows } {
  const known = decoded.get(text);
  if (known) return known;
  const ages = Float64Array.from(agesOf(text), Number);
  const rows = (columns: LmsColumns): LmsRows => ({
    ages,
    l: column(columns.l, ages.length),
    m: column(columns.m, ages.length),
    s: column(columns.s, ages.length),
  });
  const fresh = { M: rows(text.M), F: rows(text.F) };
  decoded.set(text, fresh);
  return fresh;
}

/** The youngest and the oldest age a table holds, in its own unit. Example: a table from 24 to 240 months: first 24, last 240. */
export function ageRangeOf(text: LmsText): { readonly first: number; readonly last: number } {
  const { ages } = rowsOf(text).M;
  return { first: ages[0] as number, last: ages[ages.length - 1] as number };
}

/**
 * L, M and S of one sex at an age in the table's own unit; undefined outside the table.
 *
 * A table by day is read at its whole day, without interpolation; a table by month is linear between its two neighbouring rows.
 * Source: WHO's own program for the 2006 and 2007 tables (age under 5 rounded to a day; months at 5 to 19 years interpolated);
 * for the CDC rows, which stand for half-months, linear between rows is common practice.
 * Example: WHO 2006 weight, boys, day 365 is L 0.0645, M 9.646, S 0.10925.
 */
export function lmsAt(text: LmsText, sex: 'F' | 'M', age: number): Lms | undefined {
  const rows = rowsOf(text)[sex];
  const { ages } = rows;
  const last = ages.length - 1;
  const wanted = text.ageUnit === 'day' ? Math.round(age) : age;
  if (!(wanted >= (ages[0] as number) && wanted <= (ages[last] as number))) return undefined;
  const below = text.ageUnit === 'day' ? wanted - (ages[0] as number) : rowBelow(ages, wanted);
  const lower = ages[below] as number;
  if (lower === wanted) return { l: rows.l[below] as number, m: rows.m[below] as number, s: rows.s[below] as number };
  const share = (wanted - lower) / ((ages[below + 1] as number) - lower);
  return { l: between(rows.l, below, share), m: between(rows.m, below, share), s: between(rows.s, below, share) };
}

function between(figures: Float64Array, below: number, share: number): number {
  const lower = figures[below] as number;
  return lower + share * ((figures[below + 1] as number) - lower);
}

/** Index of the last row whose age is not above the wanted one. Binary search. */
function rowBelow(ages: Float64Array, wanted: number): number {
  let low = 0;
  let high = ages.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((ages[middle] as number) <= wanted) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
