import { getTableColumns, getTableName, type Table } from 'drizzle-orm';
import * as schema from '../schema/schema';

/** A table whose rows are sealed: what it is called, and the columns whose values are. */
export type ContentTable = { readonly table: Table; readonly name: string; readonly columns: readonly string[] };

/**
 * Columns that change without a deed, and why that may be: nothing in anybody's record, nor who may do what, hangs on them.
 */
export const UNSEALED_COLUMNS: Readonly<Record<string, readonly string[]>> = {
  /** When somebody last came in, and when a row was last touched. */
  user: ['updatedAt', 'lastSignedInAt'],
  account: ['updatedAt'],
  /** Rises at each sign-in; put back, a code of the past half-minutes would work, for who knows the secret anyway. */
  second_factor: ['lastStep'],
  calendar_feed: ['lastReadAt'],
};

/** Tables that hold no content of their own, each with the reason. A table that is neither sealed nor named here fails a test. */
export const NOT_CONTENT: Readonly<Record<string, string>> = {
  audit: 'the history itself: each row is a link of the chain',
  audit_head: 'compared with the end of the chain',
  session: 'lives for a shift; ended by a change of the person, which is sealed',
  verification: 'lives for minutes',
  counted_try: 'lives for minutes',
  draft: 'unfinished; overwritten with every key, and read and asked about like fresh typing before it is saved',
  data_import: 'a file on its way in, and how far it came; what came in is sealed as the record',
  import_item: 'one patient on its way in; what came in is sealed as the record',
  share_opening: 'when a link was opened; whether it opens, and what, is sealed with the link and the page',
  work_line: 'computed from the record',
  work_state: 'computed from the record',
  work_count: 'computed from the record',
  given_answer: 'computed from the record, once: what the engine said then; no deed of a person, and nothing is worked out from it',
  answer_outcome: 'computed from the record and what was said of it',
  service_case: 'computed from the record',
  service_part: 'computed from the record',
  service_count: 'computed from the record',
  study_draft: 'unfinished; read like fresh typing before it is saved',
  due_date: 'computed from the record; a date moved by hand is sealed as such',
};

/** The tables whose rows are sealed, by name: every table of the schema that is not named above. */
export const CONTENT_TABLES: ReadonlyMap<string, ContentTable> = new Map(
  Object.values(schema)
    .map((table) => [getTableName(table), table] as const)
    .filter(([name]) => NOT_CONTENT[name] === undefined)
    .map(([name, table]) => [name, { table, name, columns: sealedColumns(name, table) }]),
);

function sealedColumns(name: string, table: Table): readonly string[] {
  const left = UNSEALED_COLUMNS[name] ?? [];
  return Object.keys(getTableColumns(table))
    .filter((column) => !left.includes(column))
    .sort();
}
