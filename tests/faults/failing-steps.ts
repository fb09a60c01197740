import type BetterSqlite from 'better-sqlite3';
import pg from 'pg';
import type { Engine } from '@/db/sql/columns';
import type { MadeUpClinic } from '@/tests/db/made-up-clinic';
import { savePaths } from './save-paths';

/** What a fault at each database step of each save path left behind. */
export type FailedSteps = {
  readonly paths: number;
  /** Faults that struck. */
  readonly faults: number;
  /** Faults that left something half written, or that the next try did not get over. */
  readonly half: readonly string[];
};

/** A fault at the k-th step from now on, of one step or of all that follow; 0 is none. Counts steps whether or not they fail. */
type Fault = { at: number; lasting: boolean; steps: number };

const LIMIT = 200;

/**
 * Puts a fault at the first database step of every save path, then at the second, and so on until the path gets through.
 *
 * After each fault the whole database is compared with what it was: nothing may have been written. (Where the fault comes after the
 * commit, everything must have been, and the path is through.) Afterwards the path must succeed, and the whole must hold.
 * Source of the shape: SQLite, "How SQLite Is Tested", input/output errors raised step by step, once and persistently.
 */
export async function failEachStep(at: MadeUpClinic, engine: Engine, kinds: readonly ('once' | 'lasting')[]): Promise<FailedSteps> {
  const { checkData } = await import('@/db/upkeep/check-data');
  const database = await at.db.client.getDatabase();
  const fault: Fault = { at: 0, lasting: false, steps: 0 };
  const undo =
    engine === 'sqlite' ? plantInFile((database as unknown as { $client: BetterSqlite.Database }).$client, fault) : plantInServer(fault);
  const state = async () => everything(at);
  const half: string[] = [];
  let faults = 0;
  const paths = savePaths(at, 'HL-0001', 'words');
  for (const path of paths) {
    for (const kind of kinds) {
      const lasting = kind === 'lasting';
      for (let step = 1; step < LIMIT; step++) {
        const before = await state();
        Object.assign(fault, { at: step, lasting, steps: 0 });
        const failed = await path.write().then(
          () => false,
          () => true,
        );
        const reached = fault.steps >= step;
        fault.at = 0;
        if (reached) faults += 1;
        const changed = (await state()) !== before;
        if (failed && changed) half.push(`${path.name}: a fault at step ${step} (${kind}) left something behind`);
        if (!reached) {
          if (failed || !changed) half.push(`${path.name}: did not succeed without a fault`);
          break;
        }
      }
    }
    const { findings } = await checkData(database, []);
    half.push(...findings.flatMap((one) => one.problems).map((problem) => `${path.name}: ${problem}`));
  }
  undo();
  return { paths: paths.length, faults, half };
}

/** Every row of every table as one text. */
async function everything(at: MadeUpClinic): Promise<string> {
  const database = await at.db.client.getDatabase();
  const rows: unknown[] = [];
  for (const table of Object.values(at.db.schema)) rows.push(await database.select().from(table));
  return JSON.stringify(rows.map((one) => (one as unknown[]).map((row) => JSON.stringify(row)).sort()));
}

function strikes(fault: Fault): boolean {
  fault.steps += 1;
  return fault.at > 0 && (fault.lasting ? fault.steps >= fault.at : fault.steps === fault.at);
}

/** Steps of a file: each statement that is made ready, and the end of each transaction before its commit. */
function plantInFile(file: BetterSqlite.Database, fault: Fault): () => void {
  const { prepare, transaction } = file;
  const broken = () => Object.assign(new Error('disk I/O error'), { code: 'SQLITE_IOERR_WRITE' });
  file.prepare = ((text: string) => {
    if (strikes(fault)) throw broken();
    return prepare.call(file, text);
  }) as typeof file.prepare;
  file.transaction = ((body: (...given: unknown[]) => unknown) =>
    transaction.call(file, (...given: unknown[]) => {
      const ended = body(...given);
      if (strikes(fault)) throw broken();
      return ended;
    })) as typeof file.transaction;
  return () => Object.assign(file, { prepare, transaction });
}

/** Steps of a server: each query, begin and commit among them; the fault is a connection that breaks before the query leaves. */
function plantInServer(fault: Fault): () => void {
  const { query } = pg.Client.prototype;
  pg.Client.prototype.query = function (this: pg.Client & { connection?: { stream: { destroy: () => void } } }, ...given: unknown[]) {
    if (strikes(fault)) this.connection?.stream.destroy();
    return Reflect.apply(query, this, given);
  } as typeof query;
  return () => Object.assign(pg.Client.prototype, { query });
}
