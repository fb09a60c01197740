import type { Layout, Mapping, Role } from './mapping';
import { placeLabel } from './place-label';
import type { TextTable } from './text-table';
import { namesUnit, unitNamed } from './unit-in-text';

/** The units that a table names itself; empty where it names none or more than one. */
export type UnitsSaid = Pick<Mapping, 'unit' | 'heightUnit' | 'weightUnit'>;

/**
 * The units that headings, places and figures of a table name. One that is nowhere named stays empty, so that it is asked.
 *
 * Shape: a table, its layout, what each column holds. Example: places `8 cm`, `16 cm` and a row `Height (in)` say cm, in and nothing.
 */
export function unitsSaid(table: TextTable, layout: Layout, roles: readonly Role[]): UnitsSaid {
  const places = textsOf(table, layout, roles, 'places');
  return {
    unit: lengthIn(places),
    heightUnit: lengthIn(textsOf(table, layout, roles, 'height')),
    weightUnit: massIn(textsOf(table, layout, roles, 'weight')),
  };
}

/** Whether a table has a height or a weight that names no unit where it stands. */
export function hasBareFigures(table: TextTable, { layout, roles }: Mapping, of: 'height' | 'weight'): boolean {
  return figuresOf(table, layout, roles, of).some((text) => text !== '' && !namesUnit(text));
}

type Subject = 'places' | 'height' | 'weight';

/** Headings and figures of the places, or of heights or weights. */
function textsOf(table: TextTable, layout: Layout, roles: readonly Role[], of: Subject): readonly string[] {
  const header = table.rows[0]?.cells ?? [];
  const headings =
    layout === 'long' && of === 'places'
      ? header.filter((_, index) => roles[index] === 'distance' || roles[index] === 'girth')
      : layout !== 'places-down'
        ? header.filter((_, index) => roles[index] === (of === 'places' ? 'place' : of))
        : [...(of === 'places' ? [header[0] ?? ''] : []), ...rowsAbout(table, roles, of).map(({ cells }) => labelIn(cells, roles))];
  return [...headings, ...figuresOf(table, layout, roles, of)];
}

function figuresOf(table: TextTable, layout: Layout, roles: readonly Role[], of: Subject): readonly string[] {
  if (layout === 'rungs') return [];
  const column = layout === 'places-down' ? 'visit' : of !== 'places' ? of : layout === 'long' ? 'girth' : 'place';
  const rows = layout === 'places-down' ? rowsAbout(table, roles, of) : table.rows.slice(1);
  return rows.flatMap(({ cells }) => cells.filter((_, index) => roles[index] === column));
}

/** Rows of a chart with places down the side that are about one subject. */
function rowsAbout(table: TextTable, roles: readonly Role[], of: Subject) {
  return table.rows.slice(1).filter(({ cells }) => {
    const label = placeLabel(labelIn(cells, roles), 'leg', 'cm', '');
    return label.kind === 'body' ? label.of === of : of === 'places';
  });
}

function labelIn(cells: readonly string[], roles: readonly Role[]): string {
  return cells[roles.indexOf('place')] ?? '';
}

function lengthIn(texts: readonly string[]): UnitsSaid['unit'] {
  const named = new Set(texts.flatMap((text) => (/["″”]$/.test(text.trim()) ? ['in'] : unitNamed(text))));
  const known = [...named].flatMap((one) => (one === 'cm' ? (['cm'] as const) : one.startsWith('in') ? (['in'] as const) : []));
  return new Set(known).size === 1 ? (known[0] ?? '') : '';
}

function massIn(texts: readonly string[]): UnitsSaid['weightUnit'] {
  const named = new Set(
    texts.flatMap(unitNamed).flatMap((one) => (/^kg/.test(one) ? ['kg' as const] : /^lb/.test(one) ? ['lb' as const] : [])),
  );
  return named.size === 1 ? ([...named][0] ?? '') : '';
}
