import { type KeptHeads, writeHeads } from '../audit/audit-head';
import { DatabaseRefused } from '../sql/database-refused';
import { UNFINISHED_MOVE } from '../sql/pending-migrations';
import { SEARCH_PART } from '../sql/search-part';
import type { MovedRow, Side } from './move-side';
import { type MovedTable, tablesToMove } from './move-tables';

/** Rows that are held at a time, and written in one go. */
const PAGE = 500;

/** How a move ended: the rows of both sides, which are equal, or the sentence that says why it did not. */
export type Moved =
  | { readonly kind: 'moved'; readonly rows: number; readonly tables: number; readonly alreadyThere: number }
  | { readonly kind: 'refused'; readonly why: string };

/** Told after each page: what was done, to which table, for how many of its rows by now, and how many there are. */
export type Progress = (done: 'copied' | 'compared', table: string, rows: number, of: number) => void;

/**
 * Carries a whole database into an empty one, table by table, each after those that it refers to; then compares the two row by row.
 *
 * Only adds rows, which every trigger allows. Each table goes in the order of its keys, a page in one transaction, so that what is there is
 * always the beginning of a table: a move that was stopped goes on behind the last key, and nothing is there twice. Until the comparison
 * has ended well the target is marked, and the program does not open it. Derived rows, sessions and the audit chain go as they are.
 */
export async function moveDatabase(source: Side, target: Side, progress: Progress = () => {}): Promise<Moved> {
  const tables = tablesToMove();
  const refusal = (await unlike(source, target, tables)) ?? (await notForThis(source, target, tables));
  if (refusal) return { kind: 'refused', why: refusal };
  let rows = 0;
  let alreadyThere = 0;
  for (const table of tables) {
    const of = await source.count(table);
    let done = await target.count(table);
    alreadyThere += done;
    for (let after = await target.lastKey(table); ; ) {
      const page = await source.rows(table, after, PAGE);
      if (page.length > 0) await add(target, table, page);
      done += page.length;
      progress('copied', table.name, done, of);
      if (page.length < PAGE) break;
      after = keyOf(table, page.at(-1));
    }
    rows += done;
  }
  const difference = await firstDifference(source, target, tables, progress);
  if (difference) return { kind: 'refused', why: difference };
  await target.run(`drop table ${UNFINISHED_MOVE}`);
  return { kind: 'moved', rows, tables: tables.length, alreadyThere };
}

async function add(target: Side, table: MovedTable, page: readonly MovedRow[]): Promise<void> {
  try {
    await target.add(table, page);
  } catch (error) {
    const why = error instanceof Error ? error.message.split('\n')[0] : String(error);
    throw new DatabaseRefused(
      `${target.name} did not take rows of ${table.name} from ${keyOf(table, page[0])} on: ${why}. What is there stays.`,
    );
  }
}

/** Keeps the heads of the audit chains beside a file that a move has filled. */
export async function keepMovedHeads(filled: Side, headFile: string): Promise<void> {
  const table = tablesToMove().find((one) => one.name === 'audit_head');
  if (!table) throw new Error('The schema has no heads of audit chains.');
  const place = (name: string) => table.columns.findIndex((column) => column.name === name);
  const rows = await filled.rows(table, '', Number.MAX_SAFE_INTEGER);
  const heads: KeptHeads = Object.fromEntries(
    rows.map((row) => [String(row[place('clinic_id')]), { length: Number(row[place('length')]), link: String(row[place('link')]) }]),
  );
  writeHeads(headFile, heads);
}

/** Why the two cannot hold the same: another version, or a table that this program does not know. */
async function unlike(source: Side, target: Side, tables: readonly MovedTable[]): Promise<string | undefined> {
  if ((await source.migrations()).length !== (await target.migrations()).length)
    return `${source.name} is of another version. Open it once with this program (npm run verify-data), then move it.`;
  const known = new Set([...tables.map((one) => one.name), SEARCH_PART, UNFINISHED_MOVE]);
  for (const side of [source, target]) {
    const strange = (await side.tables()).find((name) => !known.has(name));
    if (strange) return `${side.name} holds the table ${strange}, which is not of this program.`;
  }
  return (await source.tables()).includes(UNFINISHED_MOVE)
    ? `${source.name} is itself the target of a move that has not ended.`
    : undefined;
}

/** Why the target cannot be filled: it is in use, or holds the beginning of another move. Marks it when it can. */
async function notForThis(source: Side, target: Side, tables: readonly MovedTable[]): Promise<string | undefined> {
  const clinics = tables.filter((one) => one.name === 'clinic');
  const begun = (await target.tables()).includes(UNFINISHED_MOVE);
  for (const table of begun ? clinics : tables) {
    const [here, there] = [await source.rows(table, '', PAGE), await target.rows(table, '', PAGE)];
    if (!begun && there.length > 0) return `${target.name} is not empty: ${table.name} has rows. Nothing was written.`;
    const ours = new Set(here.map((row) => JSON.stringify(row)));
    if (there.some((row) => !ours.has(JSON.stringify(row)))) return `${target.name} holds the beginning of another move. Empty it first.`;
  }
  if (!begun) await target.run(`create table ${UNFINISHED_MOVE} (id integer)`);
  return undefined;
}

/** The first row that is not the same on both sides, in a sentence. */
async function firstDifference(source: Side, target: Side, tables: readonly MovedTable[], progress: Progress): Promise<string | undefined> {
  for (const table of tables) {
    const of = await source.count(table);
    let done = 0;
    for (let after = ''; ; ) {
      const [here, there] = [await source.rows(table, after, PAGE), await target.rows(table, after, PAGE)];
      for (let index = 0; index < Math.max(here.length, there.length); index++) {
        if (JSON.stringify(here[index]) === JSON.stringify(there[index])) continue;
        const key = keyOf(table, here[index] ?? there[index]);
        return `Row ${key} of ${table.name} is not the same on both sides. Stop whatever writes to either, empty ${target.name}, and move again.`;
      }
      done += here.length;
      progress('compared', table.name, done, of);
      if (here.length < PAGE) break;
      after = keyOf(table, here.at(-1));
    }
  }
  return undefined;
}

function keyOf(table: MovedTable, row: MovedRow | undefined): string {
  return String(row?.[table.columns.findIndex((column) => column.name === table.key)] ?? '');
}
