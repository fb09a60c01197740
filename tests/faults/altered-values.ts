import type BetterSqlite from 'better-sqlite3';
import { type Column, eq, getTableColumns, getTableName, is, Table } from 'drizzle-orm';
import type { Engine } from '@/db/sql/columns';
import type { MadeUpClinic } from '@/tests/db/made-up-clinic';
import { savePaths } from './save-paths';

/** What the campaign did: values altered, rows taken and added, how many of them were seen, and those that were not. */
export type Altered = { readonly tables: number; readonly tried: number; readonly seen: number; readonly missed: readonly string[] };

type Row = Record<string, unknown>;

/**
 * Alters every value of every table with content, one at a time and with triggers off, takes each row and puts a copy of each in, and
 * asks whether the check of the data sees it.
 *
 * The tables are those of the schema; only those that the program names as not content, each with its reason, are left out, but for the
 * history and its head, which are altered too. Each table must hold a row, so that none is passed by.
 */
export async function alterEveryValue(at: MadeUpClinic, engine: Engine, rowsEach = Number.POSITIVE_INFINITY): Promise<Altered> {
  await fillEveryTable(at);
  const { checkHistory } = await import('@/db/upkeep/check-data');
  const { checkContents } = await import('@/db/upkeep/check-contents');
  const { NOT_CONTENT, UNSEALED_COLUMNS } = await import('@/db/audit/content-tables');
  const database = await at.db.client.getDatabase();
  const holds = async (): Promise<boolean> => {
    const { findings, heads, seals } = await checkHistory(database, [{ where: 'kept elsewhere', heads: kept }]);
    const contents = await checkContents(database, seals, new Map(Object.entries(heads).map(([id, { length }]) => [id, length])));
    return [...findings, contents].every((one) => one.problems.length === 0);
  };
  const { heads: kept } = await checkHistory(database, []);
  if (!(await holds())) throw new Error('the data do not hold before anything was done');
  const left = Object.keys(NOT_CONTENT).filter((name) => name !== 'audit' && name !== 'audit_head');
  const tables = Object.values(at.db.schema as unknown as Record<string, unknown>).filter((one): one is Table => is(one, Table));
  const content = tables.filter((table) => !left.includes(getTableName(table)));
  await triggersOff(at, content, engine);
  const missed: string[] = [];
  let tried = 0;
  const look = async (what: string) => {
    tried += 1;
    if (await holds()) missed.push(what);
  };
  for (const table of content) {
    const name = getTableName(table);
    const columns = getTableColumns(table) as Record<string, Column>;
    const key = Object.entries(columns).find(([, column]) => column.primary)?.[0] ?? 'id';
    const keyColumn = columns[key] as typeof at.db.schema.audit.id;
    const asAudit = table as typeof at.db.schema.audit;
    const rows = (await database.select().from(asAudit)) as unknown as Row[];
    if (rows.length === 0) throw new Error(`${name} has no row to be altered`);
    for (const row of rows.slice(0, rowsEach)) {
      for (const [field, column] of Object.entries(columns)) {
        if (UNSEALED_COLUMNS[name]?.includes(field)) continue;
        const altered = { [field]: otherThan(row[field], column) } as never;
        const nowKey = String(field === key ? altered[field] : row[key]);
        await database
          .update(asAudit)
          .set(altered)
          .where(eq(keyColumn, String(row[key])));
        await look(`${name}.${field}`);
        await database
          .update(asAudit)
          .set({ [field]: row[field] } as never)
          .where(eq(keyColumn, nowKey));
      }
      await database.delete(asAudit).where(eq(keyColumn, String(row[key])));
      await look(`a row of ${name} taken`);
      await database.insert(asAudit).values(row as never);
    }
    const copy = { ...uniqueCopy(rows[0] ?? {}, columns), [key]: 'one more' };
    await database.insert(asAudit).values(copy as never);
    await look(`a row of ${name} put in`);
    await database.delete(asAudit).where(eq(keyColumn, 'one more'));
  }
  if (!(await holds())) throw new Error('the data do not hold after everything was put back');
  return { tables: content.length, tried, seen: tried - missed.length, missed };
}

/** Writes by every path of the program, so that every table has rows. */
export async function fillEveryTable(at: MadeUpClinic): Promise<void> {
  for (const one of savePaths(at, 'HL-0001', 'words')) await one.write();
  const person = { name: 'A. Okoro', email: 'a@harbour.example', role: 'therapist' } as const;
  await at.db.manage.invitePerson(at.therapist, person);
  const hashes = ['one', 'two'];
  await at.db.factors.turnFactorOn(at.therapist, { sealedSecret: 'sealed', lastStep: 1, recoveryCodeHashes: hashes });
  const other = savePaths(at, 'HL-0002', 'gone').slice(0, 3);
  for (const one of other) await one.write();
  const [gone] = (await at.db.find.findPatients(at.therapist, 'HL-0002')).rows;
  const { erasePatient } = await import('@/db/erasure/erase-patient');
  await erasePatient(at.therapist, gone?.patientId ?? '', 'asked for');
}

async function triggersOff({ db }: MadeUpClinic, tables: readonly Table[], engine: Engine): Promise<void> {
  if (engine === 'postgres') {
    const { runSql } = await import('@/db/sql/run-sql');
    for (const table of tables) await runSql(await db.client.getDatabase(), `alter table "${getTableName(table)}" disable trigger all`);
    return;
  }
  const file = ((await db.client.getDatabase()) as unknown as { $client: BetterSqlite.Database }).$client;
  file.pragma('foreign_keys = off');
  for (const name of file.prepare("select name from sqlite_master where type = 'trigger'").pluck().all())
    file.exec(`drop trigger "${name}"`);
}

/** Another value of the same kind. */
function otherThan(value: unknown, column: Column): unknown {
  if (column.dataType === 'boolean') return value === null ? true : !value;
  if (column.dataType === 'date') return new Date(value instanceof Date ? value.getTime() + 1000 : 0);
  if (column.dataType === 'number') return typeof value === 'number' ? value + 1000 : 1;
  if (column.dataType === 'json') return otherJson(value);
  return typeof value === 'string' ? `${value}.` : 'x';
}

function otherJson(value: unknown): unknown {
  if (typeof value === 'number') return value + 1;
  if (typeof value === 'string') return `${value}.`;
  if (Array.isArray(value)) return value.length === 0 ? ['x'] : [otherJson(value[0]), ...value.slice(1)];
  if (value !== null && typeof value === 'object') {
    const [first] = Object.entries(value);
    return first ? { ...value, [first[0]]: otherJson(first[1]) } : { x: 1 };
  }
  return value === true ? false : { x: 1 };
}

/** A copy of a row that no unique index refuses: its texts and numbers are other ones where an index may look. */
function uniqueCopy(row: Row, columns: Readonly<Record<string, Column>>): Row {
  const copy: Row = {};
  for (const [field, value] of Object.entries(row)) {
    const column = columns[field];
    copy[field] = column && column.dataType !== 'json' && value !== null && field !== 'revision' ? otherThan(value, column) : value;
  }
  return copy;
}
