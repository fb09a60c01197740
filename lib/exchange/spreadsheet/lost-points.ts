import type { Mapping } from './mapping';
import type { TextTable } from './text-table';

/** A figure of four to six digits without a point: no girth and no distance in cm or in, but a thousand times one. */
const LOST = /^[1-9]\d{3,5}$/;

/** Girths that have lost their point, and those that have not. */
export type LostPoints = { readonly lost: number; readonly example: string };

/**
 * How many figures of a table stand a thousandfold: written with a point and three decimals, and taken by a spreadsheet of another language
 * for thousands (`200.025` came back as `200025`). Said once for the whole file; `figures: 'thousandths'` of the mapping mends them all.
 *
 * Only columns of girths are looked at, so that a year or a reference is none. Source: CLDR, number patterns of German and others, where the
 * point groups thousands.
 */
export function lostPoints(table: TextTable, { layout, roles }: Mapping): LostPoints | undefined {
  if (layout === 'rungs') return undefined;
  const found = [table, ...(table.more ?? [])].flatMap(({ rows }) =>
    rows.slice(1).flatMap(({ cells }) => cells.filter((cell, index) => isFigure(roles[index]) && LOST.test(cell))),
  );
  const [example] = found;
  return example === undefined ? undefined : { lost: found.length, example };
}

/** A table with each lost point put back before the last three figures. Example: `200025` is `200.025`. */
export function mended(table: TextTable, { layout, roles, figures }: Mapping): TextTable {
  if (figures !== 'thousandths' || layout === 'rungs') return table;
  const rows = table.rows.map((row, at) =>
    at === 0 ? row : { ...row, cells: row.cells.map((cell, index) => (isFigure(roles[index]) && LOST.test(cell) ? pointed(cell) : cell)) },
  );
  return { ...table, rows, ...(table.more && { more: table.more.map((one) => mended(one, { layout, roles, figures } as Mapping)) }) };
}

function isFigure(role: Mapping['roles'][number] | undefined): boolean {
  return role === 'place' || role === 'visit' || role === 'girth' || role === 'distance';
}

function pointed(figure: string): string {
  return `${figure.slice(0, -3)}.${figure.slice(-3)}`;
}
