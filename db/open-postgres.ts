import { sql } from 'drizzle-orm';
import { drizzle } from 'drizzle-orm/node-postgres';
import { Pool, type PoolClient } from 'pg';
import { sealEarlier } from './audit/seal-audit';
import { sealContents } from './audit/seal-contents';
import type { Database } from './sql/database';
import { DatabaseRefused } from './sql/database-refused';
import { MIGRATION_TABLE, migrationsOf, pendingMigrations } from './sql/pending-migrations';
import { postgresSettings } from './sql/postgres-settings';
import { finish } from './sql/run-steps';
import { tryAgain } from './sql/try-again';

/** Any number agreed among the processes of this program; holds the others back while one migrates. */
const MIGRATION_LOCK = 7_263_941;

type Taken = Parameters<Parameters<Pool['connect']>[0]>;

/** A pool that waits a little for a server that is being started again: while a connection is made, nothing was sent that could be lost. */
class PatientPool extends Pool {
  override connect(): Promise<PoolClient>;
  override connect(callback: (...taken: Taken) => void): void;
  override connect(callback?: (...taken: Taken) => void): Promise<PoolClient> | undefined {
    const connected = tryAgain(() => super.connect());
    if (!callback) return connected;
    connected.then(
      (client) => callback(undefined, client, (broken) => client.release(broken)),
      (error: Error) => callback(error, undefined, () => {}),
    );
    return undefined;
  }
}

/**
 * Connects to a PostgreSQL server and brings its database up to date.
 *
 * Any number of processes may start at once: one migrates, the others wait for its lock and find nothing to do.
 */
export async function openPostgres(url: string) {
  const pool = new PatientPool(postgresSettings(url));
  // A connection may be lost at any moment, idle or between two queries of a write. The query that meets it fails, the next opens another;
  // unheard, the loss would end the process.
  pool.on('error', () => {});
  pool.on('connect', (client) => client.on('error', () => {}));
  const database = drizzle(pool, { casing: 'snake_case' });
  try {
    await database.transaction(async (tx) => {
      await tx.execute(sql`select pg_advisory_xact_lock(${MIGRATION_LOCK})`);
      await tx.execute(
        sql.raw(`create table if not exists ${MIGRATION_TABLE} (id serial primary key, hash text not null, created_at bigint)`),
      );
      const applied = await tx.execute<{ created_at: string }>(sql.raw(`select created_at from ${MIGRATION_TABLE}`));
      const had = applied.rows.map((row) => Number(row.created_at));
      const pending = pendingMigrations(migrationsOf('postgres'), had, 'The database');
      for (const migration of pending) {
        for (const statement of migration.sql) await tx.execute(sql.raw(statement));
        await tx.execute(
          sql`insert into ${sql.raw(MIGRATION_TABLE)} (hash, created_at) values (${migration.hash}, ${migration.folderMillis})`,
        );
      }
      if (pending.length > 0) {
        await finish(sealEarlier(tx as unknown as Database));
        await finish(sealContents(tx as unknown as Database, new Date()));
      }
    });
  } catch (error) {
    await pool.end();
    throw refusal(error);
  }
  return { database, close: () => pool.end() };
}

function refusal(error: unknown): DatabaseRefused {
  if (error instanceof DatabaseRefused) return error;
  const cause = error instanceof Error && error.cause instanceof Error ? error.cause : error;
  const code = typeof cause === 'object' && cause !== null && 'code' in cause ? ` (${cause.code})` : '';
  const why = (cause instanceof Error ? cause.message : String(cause)).split('\n')[0];
  return new DatabaseRefused(`The database at DATABASE_URL cannot be used: ${why || 'no answer'}${code}.`);
}
