import 'server-only';
import { betterAuth } from 'better-auth';
import { drizzleAdapter } from 'better-auth/adapters/drizzle';
import { nextCookies } from 'better-auth/next-js';
import { getDatabase } from '@/db/client';
import { SHIFT_SECONDS } from '@/db/people/sessions';
import { account, session, user, verification } from '@/db/schema/schema';
import { engine } from '@/db/sql/columns';
import { databaseAddress } from '@/db/sql/database';
import { authSecret } from './auth-secret';
import { ownSignIn } from './own-sign-in';

/** A column of ours on its table: the library reads it and never takes it from a form. */
const OURS = { type: 'string', required: true, input: false } as const;

async function makeAuth() {
  return betterAuth({
    database: drizzleAdapter(await getDatabase(), {
      provider: engine === 'postgres' ? 'pg' : 'sqlite',
      schema: { user, session, account, verification },
    }),
    secret: authSecret(),
    baseURL: process.env.APP_URL || 'http://localhost:3000',
    telemetry: { enabled: false },
    user: { additionalFields: { clinicId: OURS, role: OURS } },
    session: {
      expiresIn: SHIFT_SECONDS,
      disableSessionRefresh: true,
      deferSessionRefresh: true,
      cookieCache: { enabled: false },
      additionalFields: { lastUsedAt: { type: 'date', required: false, input: false } },
    },
    rateLimit: { enabled: false },
    logger: { level: 'error' },
    plugins: [ownSignIn(), nextCookies()],
  });
}

type Auth = Awaited<ReturnType<typeof makeAuth>>;

const held = globalThis as typeof globalThis & { rungwiseAuth?: Map<string, Promise<Auth>> };

/**
 * The sign-in library over the clinic's database, made at the first call.
 *
 * It keeps sessions and their cookie, and nothing else: the only way in is `ownSignIn`, tries are counted in `limits`. Sessions end with
 * the shift and are looked up at each request, so that ending one works at once. With an https APP_URL its cookies are `__Secure-`.
 */
export async function getAuth(): Promise<Auth> {
  held.rungwiseAuth ??= new Map();
  const made = held.rungwiseAuth.get(databaseAddress()) ?? makeAuth();
  held.rungwiseAuth.set(databaseAddress(), made);
  try {
    return await made;
  } catch (error) {
    held.rungwiseAuth.delete(databaseAddress());
    throw error;
  }
}
