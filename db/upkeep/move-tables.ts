import { getTableColumns, getTableName, is, Table } from 'drizzle-orm';
import { toSnakeCase } from 'drizzle-orm/casing';
import { getTableConfig as ofServer } from 'drizzle-orm/pg-core';
import { getTableConfig as ofFile } from 'drizzle-orm/sqlite-core';
import * as schema from '../schema/schema';
import { engine } from '../sql/columns';

/** What a column holds, whatever an engine makes of it. */
export type ValueKind = 'text' | 'number' | 'yes-no' | 'json' | 'moment';

/** A table as it is moved: its name, its columns in a fixed order, and the one that is its key (always text). */
export type MovedTable = {
  readonly name: string;
  readonly key: string;
  readonly columns: readonly { readonly name: string; readonly kind: ValueKind }[];
};

const KINDS: Readonly<Record<string, ValueKind>> = { string: 'text', number: 'number', boolean: 'yes-no', json: 'json', date: 'moment' };

/** Every table of the schema, in an order in which each comes after those that it refers to. */
export function tablesToMove(): readonly MovedTable[] {
  const left = new Set<Table>(Object.values(schema).filter((one) => is(one, Table)));
  const ordered: Table[] = [];
  while (left.size > 0) {
    const free = [...left].filter((table) => referredTo(table).every((other) => other === table || !left.has(other)));
    if (free.length === 0) throw new Error('The references between the tables go round in a circle.');
    for (const table of free) left.delete(table);
    ordered.push(...free);
  }
  return ordered.map(moved);
}

function referredTo(table: Table): readonly Table[] {
  const { foreignKeys } = engine === 'postgres' ? ofServer(table as never) : ofFile(table as never);
  return foreignKeys.map((one) => one.reference().foreignTable);
}

function moved(table: Table): MovedTable {
  const columns = Object.entries(getTableColumns(table)).map(([key, column]) => {
    const kind = KINDS[column.dataType];
    if (!kind) throw new Error(`${key} of ${getTableName(table)} is ${column.dataType}, which cannot be moved.`);
    return { name: toSnakeCase(key), kind, isKey: column.primary };
  });
  const key = columns.find((column) => column.isKey);
  if (key?.kind !== 'text') throw new Error(`${getTableName(table)} has no key to move it by.`);
  return { name: getTableName(table), key: key.name, columns: columns.map(({ name, kind }) => ({ name, kind })) };
}
