import { Client } from 'pg';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPostgres } from '@/db/open-postgres';
import { DatabaseRefused } from '@/db/sql/database-refused';
import { migrationsOf } from '@/db/sql/pending-migrations';
import { type PostgresServer, startPostgres } from '@/tests/postgres-server';

describe('a PostgreSQL database', () => {
  let server: PostgresServer;
  beforeAll(async () => {
    server = await startPostgres();
  });
  afterAll(async () => server?.stop());

  async function inside(text: string) {
    const client = new Client({ connectionString: server.url });
    await client.connect();
    const { rows } = await client.query(text);
    await client.end();
    return rows;
  }

  it('is brought up to date once when eight processes start at the same moment', async () => {
    const opened = await Promise.all(Array.from({ length: 8 }, () => openPostgres(server.url)));
    await Promise.all(opened.map((one) => one.close()));
    expect(await inside('select count(*)::int as had from __drizzle_migrations')).toEqual([{ had: migrationsOf('postgres').length }]);
  });

  it('that does not answer is refused in one sentence', async () => {
    const refused = await openPostgres('postgres://app@127.0.0.1:1/none').catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(DatabaseRefused);
    expect((refused as Error).message).toMatch(/^The database at DATABASE_URL cannot be used: [^\n]+\.$/);
  });

  it('written by a newer program is refused in one sentence', async () => {
    await (await openPostgres(server.url)).close();
    await inside("insert into __drizzle_migrations (hash, created_at) values ('of the future', 4000000000000)");
    const refused = await openPostgres(server.url).catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(DatabaseRefused);
    expect((refused as Error).message).toMatch(/^The database was written by a newer version/);
  });
});
