import { LADDER_COLUMNS } from '../ladder-cells';
import { rolesOfTable } from './headings';
import type { Layout, Mapping, Role } from './mapping';
import { sideIn } from './place-label';
import { ANY_CENTURY, looksLikeDay, ordersOf, spreadsheetDay } from './spreadsheet-day';
import type { TextTable } from './text-table';
import type { SaidAbove } from './tidy-table';
import { withoutUnit } from './unit-in-text';
import { unitsSaid } from './units-said';
import { sexOf } from './words-of-cells';

/**
 * A first proposal of how a table is to be read. Whatever the table does not say is left empty or null: a person answers it, nobody guesses.
 *
 * The ladders file is known by its header; a header with two days or more is a column a visit; any other table is a row a visit.
 */
export function guessMapping(table: TextTable, above?: SaidAbove): Mapping {
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
    reference: above?.reference ?? '',
    born: bornAbove(above, orders),
    sex: sexAbove(above),
    diagnosisGroup: 'other',
    limb: above?.limb === 'leg' || above?.limb === 'arm' ? above.limb : '',
    side: above?.side === 'left' || above?.side === 'right' ? above.side : '',
    affected: 'both',
    zero: '',
    lastYear: null,
    figures: 'as-written',
  };
}

/** The day of birth that stands above a table, where its order is sure; empty otherwise, so that it is asked. */
function bornAbove(above: SaidAbove | undefined, orders: readonly Mapping['dayOrder'][]): string {
  const [order, ...more] = orders;
  if (!above?.born || !order || more.length > 0) return '';
  const read = spreadsheetDay(above.born, order, null);
  return read.kind === 'read' ? read.value : '';
}

function sexAbove(above: SaidAbove | undefined): Mapping['sex'] {
  const sex = sexOf(above?.sex ?? '');
  return sex === 'F' || sex === 'M' || sex === 'X' ? sex : '';
}

/** What each column seems to hold in a layout. */
export function rolesFor({ rows }: TextTable, layout: Layout): readonly Role[] {
  const header = rows[0]?.cells ?? [];
  if (layout === 'rungs') return [];
  if (layout === 'places-down') return rolesOfChart(header, (index) => rows.slice(1).some(({ cells }) => (cells[index] ?? '') !== ''));
  return rolesOfTable(header).map((role) => (role === 'place' && layout === 'long' ? 'ignore' : role));
}

/** The heading of a visit without its side and its unit: `2026-05-08 (in) R` is `2026-05-08`. */
export function visitHeading(cell: string): string {
  return withoutUnit(sideIn(withoutUnit(cell)).rest);
}

function layoutOf(header: readonly string[]): Layout {
  if (LADDER_COLUMNS.every((column) => header.includes(column))) return 'rungs';
  const roles = rolesOfTable(header);
  if (roles.includes('girth') && roles.includes('distance')) return 'long';
  return header.filter((cell) => looksLikeDay(visitHeading(cell))).length > 0 && !looksLikeDay(header[0] ?? '')
    ? 'places-down'
    : 'visits-down';
}

function rolesOfChart(header: readonly string[], isFilled: (index: number) => boolean): readonly Role[] {
  let seen = false;
  return header.map((cell, index): Role => {
    if (index === 0) return 'place';
    const isDay = looksLikeDay(visitHeading(cell));
    seen ||= isDay;
    return isDay || (seen && cell === '' && isFilled(index)) ? 'visit' : 'ignore';
  });
}

function daysIn({ rows }: TextTable, layout: Layout, roles: readonly Role[]): readonly string[] {
  const [header, ...body] = rows;
  if (layout === 'places-down') return (header?.cells ?? []).map(visitHeading).filter(looksLikeDay);
  const columns = roles.flatMap((role, index) => (role === 'day' || role === 'born' ? [index] : []));
  const texts = body.flatMap(({ cells }) => columns.map((index) => cells[index] ?? '')).filter((text) => text !== '');
  return texts
    .filter(
      (text) =>
        looksLikeDay(text) &&
        spreadsheetDay(text, 'dmy', ANY_CENTURY).kind + spreadsheetDay(text, 'mdy', ANY_CENTURY).kind !== 'refusedrefused',
    )
    .slice(0, 5000);
}
