import type { CellKind, Column, SetTable } from './set-table';
import type { SetTally } from './set-tally';
import { columnsIn, SET_TABLES, type SetStyle } from './write-set';

/** Datatype of CSV on the Web for each kind of cell. */
const DATATYPE: Readonly<Record<CellKind, string>> = {
  id: 'string',
  identity: 'string',
  'free-text': 'string',
  word: 'string',
  typed: 'string',
  day: 'date',
  moment: 'dateTime',
  whole: 'integer',
  decimal: 'decimal',
  json: 'json',
};

/** Name of the dictionary's file in a set. */
export const DICTIONARY_FILE = 'set-metadata.json';

/** How the dictionary says that a set was written for research, and that words were defused. */
export const RESEARCH = 'urn:rungwise:research';
export const DEFUSED = 'urn:rungwise:defused';

/** Where the dictionary keeps what was written, so that a set which another program changed is known. */
export const WRITTEN = 'urn:rungwise:written';

/** Name of a table's file in a set. */
export function fileNameOf(table: SetTable): string {
  return `${table.name}.csv`;
}

/**
 * The data dictionary of a set: every file with every column, its datatype, unit and what it says; and how the set was written.
 *
 * Shape: a style, the day it was written, and the tally of what was written (a research set keeps no references); the JSON of a CSVW table group.
 * Source: W3C Recommendation, Metadata Vocabulary for Tabular Data, 17 December 2015 (csvw). Units: UCUM.
 */
export function dataDictionary(style: SetStyle, day: string, { references, rows, sums }: SetTally) {
  return {
    '@context': 'http://www.w3.org/ns/csvw',
    'dc:title': 'Ladders of girths, limb volumes and garments',
    'dc:created': style.research ? day.slice(0, 7) : day,
    [RESEARCH]: style.research,
    [DEFUSED]: style.defused,
    [WRITTEN]: style.research ? { rows } : { references, rows, sums },
    tables: SET_TABLES.map((table) => ({
      url: fileNameOf(table),
      'dc:title': table.name,
      'dc:description': table.says,
      dialect: { delimiter: ',', header: true, encoding: 'utf-8', lineTerminators: ['\r\n'] },
      tableSchema: { columns: columnsIn(table, style).map(columnEntry), ...keysOf(table) },
    })),
  };
}

/** What names a row of a table, and which table its ids point into. Source: CSVW, primaryKey and foreignKeys. */
const KEYS: Readonly<Record<string, readonly string[]>> = {
  subject: ['subject_id'],
  visit: ['visit_id'],
  ladder: ['ladder_id'],
  rung: ['ladder_id', 'rung'],
  volume: ['ladder_id'],
};
const OWNERS = ['subject', 'visit', 'ladder'] as const;

function keysOf(table: SetTable) {
  const names = new Set(table.columns.map(({ name }) => name));
  const owners = OWNERS.filter((owner) => owner !== table.name && names.has(`${owner}_id`));
  return {
    ...(KEYS[table.name] ? { primaryKey: KEYS[table.name] } : {}),
    ...(owners.length === 0
      ? {}
      : {
          foreignKeys: owners.map((owner) => ({
            columnReference: `${owner}_id`,
            reference: { resource: `${owner}.csv`, columnReference: `${owner}_id` },
          })),
        }),
  };
}

function columnEntry({ name, kind, unit, says }: Column) {
  return { name, titles: name, datatype: DATATYPE[kind], null: '', 'dc:description': says, ...(unit ? { 'schema:unitCode': unit } : {}) };
}
