import fs from 'node:fs';
import type { PoolConfig } from 'pg';
import { DatabaseRefused } from './database-refused';

/** Connections of one process when DATABASE_POOL does not say. */
const CONNECTIONS = 10;
const MOST_CONNECTIONS = 200;

/** Kinds of TLS that leave out part of the check. A server that was not checked may be anybody: they are all taken as the whole check. */
const HALF_CHECKED = ['prefer', 'require', 'verify-ca'];

/**
 * How a process connects to the server at DATABASE_URL.
 *
 * TLS: `sslmode` in the address. Any but `disable` and `no-verify` checks the server's certificate and name; DATABASE_CA names a file of
 * the authority that signed it (PEM), when that is not one of the public ones, and asks for TLS by itself. DATABASE_POOL is how many
 * connections the process opens at most: all processes together must stay under the server's own limit.
 */
export function postgresSettings(url: string, env: Readonly<Record<string, string | undefined>> = process.env): PoolConfig {
  if (!URL.canParse(url)) throw new DatabaseRefused('DATABASE_URL is not an address such as postgres://user@host:5432/name.');
  const address = new URL(url);
  const authority = env.DATABASE_CA;
  if (authority) {
    if (!fs.existsSync(authority)) throw new DatabaseRefused(`DATABASE_CA names ${authority}, which is not there.`);
    address.searchParams.set('sslrootcert', authority);
  }
  const mode = address.searchParams.get('sslmode') ?? '';
  if (HALF_CHECKED.includes(mode) || (authority && mode === '')) address.searchParams.set('sslmode', 'verify-full');
  return {
    connectionString: address.href,
    max: connections(env.DATABASE_POOL),
    connectionTimeoutMillis: 10_000,
    keepAlive: true,
    // What is asked at once on one connection is sent at once: the steps of a write (`run-steps.ts`).
    pipeline: true,
    application_name: 'rungwise',
  };
}

function connections(given: string | undefined): number {
  if (given === undefined || given === '') return CONNECTIONS;
  const count = /^\d{1,4}$/.test(given) ? Number(given) : 0;
  if (count < 1 || count > MOST_CONNECTIONS)
    throw new DatabaseRefused(`DATABASE_POOL is ${given}. Give a whole number from 1 to ${MOST_CONNECTIONS}.`);
  return count;
}
