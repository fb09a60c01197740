import { LADDER_COLUMNS } from '../read-ladders-csv';
import type { Layout, Mapping, Role } from './mapping';
import { isPlaceHeading, sideIn } from './place-label';
import { looksLikeDay, ordersOf, spreadsheetDay } from './spreadsheet-day';
import type { TextTable } from './text-table';
import { withoutUnit } from './unit-in-text';
import { unitsSaid } from './units-said';

/** Headings people give to columns that are no places. Source: common practice. */
const HEADINGS: Readonly<Partial<Record<Role, readonly string[]>>> = {
  reference: ['patient', 'reference', 'ref', 'id', 'patient id', 'mrn', 'subject', 'row'],
  born: ['born', 'dob', 'date of birth', 'birth date', 'birthdate'],
  sex: ['sex', 'gender', 'm/f', 'f/m'],
  day: ['day', 'date', 'visit', 'visit date', 'date of visit'],
  time: ['time', 'hour'],
  limb: ['limb'],
  side: ['side', 'l/r', 'r/l', 'leg', 'arm'],
  height: ['height', 'stature', 'body height'],
  weight: ['weight', 'body weight'],
  posture: ['posture', 'position'],
  measurer: ['measurer', 'measured by', 'taped by', 'therapist'],
  note: ['note', 'notes', 'remark', 'remarks', 'comment', 'comments'],
};

/**
 * A first proposal of how a table is to be read. Whatever the table does not say is left empty or null: a person answers it, nobody guesses.
 *
 * The ladders file is known by its header; a header with two days or more is a column a visit; any other table is a row a visit.
 */
export function guessMapping(table: TextTable): Mapping {
  const header = table.rows[0]?.cells ?? [];
  const layout = layoutOf(header);
  const roles = rolesFor(table, layout);
  const days = daysIn(table, layout, roles);
  const orders = ordersOf(days);
  return {
    ...unitsSaid(table, layout, roles),
    layout,
    roles: [...roles],
    dayOrder: layout === 'rungs' ? 'ymd' : orders.length === 1 ? (orders[0] ?? null) : null,
    reference: '',
    born: '',
    sex: '',
    diagnosisGroup: 'other',
    limb: '',
    side: '',
    affected: 'both',
    zero: '',
  };
}

/** What each column seems to hold in a layout. */
export function rolesFor({ rows }: TextTable, layout: Layout): readonly Role[] {
  const header = rows[0]?.cells ?? [];
  return layout === 'rungs' ? [] : layout === 'places-down' ? rolesOfChart(header) : rolesOfTable(header);
}

/** The heading of a visit without its side and its unit: `2026-05-08 (in) R` is `2026-05-08`. */
export function visitHeading(cell: string): string {
  return withoutUnit(sideIn(withoutUnit(cell)).rest);
}

function layoutOf(header: readonly string[]): Layout {
  if (LADDER_COLUMNS.every((column) => header.includes(column))) return 'rungs';
  return header.filter((cell) => looksLikeDay(visitHeading(cell))).length > 0 && !looksLikeDay(header[0] ?? '')
    ? 'places-down'
    : 'visits-down';
}

function rolesOfChart(header: readonly string[]): readonly Role[] {
  let seen = false;
  return header.map((cell, index): Role => {
    if (index === 0) return 'place';
    const isDay = looksLikeDay(visitHeading(cell));
    seen ||= isDay;
    return isDay || (seen && cell === '') ? 'visit' : 'ignore';
  });
}

function rolesOfTable(header: readonly string[]): readonly Role[] {
  return header.map((cell): Role => {
    const words = cell.toLowerCase().replace(/[_:]+/g, ' ').trim();
    const role = (Object.keys(HEADINGS) as Role[]).find((one) => HEADINGS[one]?.includes(withoutUnit(words)));
    if (role) return role;
    return isPlaceHeading(sideIn(cell).rest) ? 'place' : 'ignore';
  });
}

function daysIn({ rows }: TextTable, layout: Layout, roles: readonly Role[]): readonly string[] {
  const [header, ...body] = rows;
  if (layout === 'places-down') return (header?.cells ?? []).map(visitHeading).filter(looksLikeDay);
  const columns = roles.flatMap((role, index) => (role === 'day' || role === 'born' ? [index] : []));
  const texts = body.flatMap(({ cells }) => columns.map((index) => cells[index] ?? '')).filter((text) => text !== '');
  return texts
    .filter((text) => looksLikeDay(text) && spreadsheetDay(text, 'dmy').kind + spreadsheetDay(text, 'mdy').kind !== 'refusedrefused')
    .slice(0, 5000);
}
