import { and, asc, type Column, eq, getTableColumns, gt, isNotNull } from 'drizzle-orm';
import { toSnakeCase } from 'drizzle-orm/casing';
import type { LatestSeal, LatestSeals } from '../audit/chain-walk';
import { CONTENT_TABLES, type ContentTable } from '../audit/content-tables';
import { digestOfRow, wordsOf } from '../audit/touched-rows';
import { audit } from '../schema/schema';
import { engine } from '../sql/columns';
import type { Database } from '../sql/database';
import { runSql } from '../sql/run-sql';
import type { Finding } from './check-schema';

const PAGE = 500;

/** How often rows that do not fit are looked at again: a deed may have been added while this looked. */
const LOOKS = 3;

/** A row that does not fit its seal, and what is wrong with it. */
type Suspect = { readonly table: ContentTable; readonly id: string; readonly wrong: string };

type RawRow = Readonly<Record<string, unknown>> & { readonly id: string };

/**
 * Compares every row of every table with content with the latest deed about it: none is altered, added, or gone without a deed.
 *
 * Values are read as the file keeps them: one that would not be written back to the letter, or JSON that cannot be parsed, is altered.
 */
export async function checkContents(database: Database, seals: LatestSeals, upTo: ReadonlyMap<string, number>): Promise<Finding> {
  let rows = 0;
  const seen = new Set<string>();
  let suspects: Suspect[] = [];
  for (const table of CONTENT_TABLES.values()) {
    for (let after = ''; ; ) {
      const page = await pageOf(database, table, after);
      for (const row of page) {
        seen.add(`${table.name} ${row.id}`);
        const wrong = wrongWith(table, row, seals.get(`${table.name} ${row.id}`));
        if (wrong) suspects.push({ table, id: row.id, wrong });
      }
      rows += page.length;
      after = page.at(-1)?.id ?? '';
      if (page.length < PAGE) break;
    }
  }
  for (const [name, { digest }] of seals) {
    const [table = '', id = ''] = splitOnce(name);
    const known = CONTENT_TABLES.get(table);
    if (digest !== null && !seen.has(name) && known) suspects.push({ table: known, id, wrong: GONE });
  }
  for (let look = 0; look < LOOKS && suspects.length > 0; look++) suspects = await lookAgain(database, suspects, seals, upTo);
  return {
    looked: `${rows} rows of ${CONTENT_TABLES.size} tables were compared, value by value, with the deeds that wrote them.`,
    problems: shortened(suspects.map(({ table, id, wrong }) => `The row ${id} of ${table.name} ${wrong}.`)),
  };
}

/** Problems that are said one by one; more of the same kind are counted. */
const MOST_SAID = 50;

function shortened(problems: readonly string[]): readonly string[] {
  const more = problems.length - MOST_SAID;
  return more > 0 ? [...problems.slice(0, MOST_SAID), `So are ${more} more rows.`] : problems;
}

const GONE = 'is gone although no deed took it away';

function wrongWith(table: ContentTable, row: RawRow, seal: LatestSeal | undefined): string | undefined {
  if (!seal) return 'was written by no deed';
  if (seal.digest === null) return `is there although row ${seal.number} of the history took it away`;
  if (seal.salt === null) return `cannot be compared: the salt of row ${seal.number} of the history is gone`;
  const values = valuesOf(table, row);
  if (typeof values === 'string') return values;
  return digestOfRow(seal.salt, table.name, wordsOf(table, values)) === seal.digest
    ? undefined
    : `is not as row ${seal.number} of the history wrote it`;
}

/** The values of a row as the program reads them; a sentence when one of them is nothing that the program writes. */
function valuesOf(table: ContentTable, row: RawRow): Readonly<Record<string, unknown>> | string {
  const values: Record<string, unknown> = {};
  const columns = getTableColumns(table.table) as Record<string, Column>;
  for (const name of table.columns) {
    const column = columns[name];
    const kept = row[engine === 'sqlite' ? toSnakeCase(name) : name];
    if (!column || kept === null || kept === undefined) continue;
    if (engine === 'postgres') {
      values[name] = kept;
      continue;
    }
    try {
      values[name] = column.mapFromDriverValue(kept);
      if (column.mapToDriverValue(values[name]) !== kept) return `has a value in ${toSnakeCase(name)} that this program does not write`;
    } catch {
      return `has a value in ${toSnakeCase(name)} that cannot be read`;
    }
  }
  return values;
}

async function pageOf(database: Database, table: ContentTable, after: string): Promise<readonly RawRow[]> {
  const { id } = getTableColumns(table.table) as { id: typeof audit.id };
  if (engine === 'sqlite')
    return runSql<RawRow>(database, `select * from "${table.name}" where id > ${quoted(after)} order by id limit ${PAGE}`);
  return database
    .select()
    .from(table.table as typeof audit)
    .where(gt(id, after))
    .orderBy(asc(id))
    .limit(PAGE) as Promise<RawRow[]>;
}

async function rowOf(database: Database, table: ContentTable, sought: string): Promise<RawRow | undefined> {
  const { id } = getTableColumns(table.table) as { id: typeof audit.id };
  const [found] =
    engine === 'sqlite'
      ? await runSql<RawRow>(database, `select * from "${table.name}" where id = ${quoted(sought)}`)
      : ((await database
          .select()
          .from(table.table as typeof audit)
          .where(eq(id, sought))) as unknown as RawRow[]);
  return found;
}

function quoted(text: string): string {
  return `'${text.replaceAll("'", "''")}'`;
}

/** Looks at suspects again, after the deeds that were added since the history was read. */
async function lookAgain(
  database: Database,
  suspects: readonly Suspect[],
  seals: LatestSeals,
  upTo: ReadonlyMap<string, number>,
): Promise<Suspect[]> {
  const latest = new Map(seals);
  for (const [clinicId, number] of upTo) {
    const since = and(eq(audit.clinicId, clinicId), gt(audit.number, number), isNotNull(audit.contents));
    const deeds = await database.select().from(audit).where(since).orderBy(asc(audit.number));
    for (const deed of deeds) {
      for (const [table, id, digest] of deed.contents ?? [])
        latest.set(`${table} ${id}`, { digest, salt: deed.salt, number: deed.number ?? 0 });
    }
  }
  const left: Suspect[] = [];
  for (const { table, id } of suspects) {
    const seal = latest.get(`${table.name} ${id}`);
    const row = await rowOf(database, table, id);
    const wrong = row ? wrongWith(table, row, seal) : seal && seal.digest !== null ? GONE : undefined;
    if (wrong) left.push({ table, id, wrong });
  }
  return left;
}

function splitOnce(name: string): readonly [string, string] {
  const blank = name.indexOf(' ');
  return [name.slice(0, blank), name.slice(blank + 1)];
}
