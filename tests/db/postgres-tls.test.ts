import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openPostgres } from '@/db/open-postgres';
import { DatabaseRefused } from '@/db/sql/database-refused';
import { postgresSettings } from '@/db/sql/postgres-settings';
import { type PostgresServer, startPostgres } from '@/tests/postgres-server';

const tls = path.resolve(import.meta.dirname, 'tls');
const authority = path.join(tls, 'authority.pem');

describe('a PostgreSQL server that proves who it is', () => {
  let server: PostgresServer;
  beforeAll(async () => {
    server = await startPostgres({
      tls: { certificate: path.join(tls, 'server-certificate.pem'), key: path.join(tls, 'server-key.pem') },
    });
  });
  afterAll(async () => server?.stop());

  /** The server's own word on whether it is spoken to over TLS; the refusal's words when it was not let in. */
  async function spokenTo(host: string, query: string, ca?: string): Promise<boolean | string> {
    const before = process.env.DATABASE_CA;
    if (ca) process.env.DATABASE_CA = ca;
    try {
      const opened = await openPostgres(server.url.replace('127.0.0.1', host) + query);
      const { rows } = await opened.database.$client.query('select ssl from pg_stat_ssl where pid = pg_backend_pid()');
      await opened.close();
      return rows[0].ssl;
    } catch (error) {
      if (!(error instanceof DatabaseRefused)) throw error;
      return error.message;
    } finally {
      if (before === undefined) delete process.env.DATABASE_CA;
      else process.env.DATABASE_CA = before;
    }
  }

  it('is believed when the named authority signed it, and without further words once an authority is named', async () => {
    expect(await spokenTo('localhost', '?sslmode=verify-full', authority)).toBe(true);
    expect(await spokenTo('localhost', '', authority)).toBe(true);
  });

  it.each(['prefer', 'require', 'verify-ca', 'verify-full'])('is refused under sslmode=%s when nobody known signed it', async (mode) => {
    expect(await spokenTo('localhost', `?sslmode=${mode}`)).toMatch(/cannot be used: [^\n]*certificate/);
  });

  it('is refused under another name than its own, also where only the authority would be asked for', async () => {
    expect(await spokenTo('127.0.0.1', '?sslmode=verify-ca', authority)).toMatch(/cannot be used: [^\n]*(altnames|alternative|IP)/);
  });

  it('is spoken to unchecked, or in the clear, only when the address says so', async () => {
    expect(await spokenTo('localhost', '?sslmode=no-verify')).toBe(true);
    expect(await spokenTo('localhost', '?sslmode=disable')).toBe(false);
  });
});

describe('the settings of a connection', () => {
  const url = 'postgres://app@127.0.0.1:5432/clinic';

  it('open ten connections, or as many as DATABASE_POOL says', () => {
    expect(postgresSettings(url, {}).max).toBe(10);
    expect(postgresSettings(url, { DATABASE_POOL: '3' }).max).toBe(3);
  });

  it.each(['0', '-1', '2.5', 'many', '201'])('refuse DATABASE_POOL=%s', (given) => {
    expect(() => postgresSettings(url, { DATABASE_POOL: given })).toThrow(/^DATABASE_POOL is /);
  });

  it('refuse an authority that is not there, and an address that is none', () => {
    expect(() => postgresSettings(url, { DATABASE_CA: '/nowhere/authority.pem' })).toThrow(/is not there/);
    expect(() => postgresSettings('clinic', {})).toThrow(/is not an address/);
  });
});
