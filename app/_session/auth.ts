import 'server-only';
import { createHash } from 'node:crypto';
import { betterAuth } from 'better-auth';
import { drizzleAdapter } from 'better-auth/adapters/drizzle';
import { APIError, createAuthMiddleware } from 'better-auth/api';
import { nextCookies } from 'better-auth/next-js';
import { databaseAddress, getDatabase } from '@/db/client';
import { engine } from '@/db/columns';
import { account, rateLimit, session, user, verification } from '@/db/schema';
import { countTry, forgetTries, TRY_WINDOW_MINUTES } from '@/db/sign-in-failures';

/** Length of a shift, seconds: nobody stays signed in longer. Clinic default. */
const SHIFT_SECONDS = 12 * 60 * 60;

/** Tries a minute from one address, over all accounts: a whole clinic behind one address signs in within it. */
const TRIES_A_MINUTE = 30;

/** A column of ours on its table: the library reads it and never takes it from a form. */
const OURS = { type: 'string', required: true, input: false } as const;

const SIGN_IN = '/sign-in/email';

async function makeAuth() {
  const address = process.env.APP_URL;
  const proxyHeader = process.env.TRUSTED_PROXY_HEADER;
  return betterAuth({
    database: drizzleAdapter(await getDatabase(), {
      provider: engine === 'postgres' ? 'pg' : 'sqlite',
      schema: { user, session, account, verification, rateLimit },
    }),
    secret: secret(),
    baseURL: address ?? 'http://localhost:3000',
    trustedOrigins: (request) => (address ? [] : [ownOrigin(request)]),
    telemetry: { enabled: false },
    user: { additionalFields: { clinicId: OURS, role: OURS } },
    emailAndPassword: { enabled: true, disableSignUp: true, minPasswordLength: 15 },
    session: { expiresIn: SHIFT_SECONDS, disableSessionRefresh: true, cookieCache: { enabled: false } },
    rateLimit: { enabled: true, storage: 'database', customRules: { [SIGN_IN]: { window: 60, max: TRIES_A_MINUTE } } },
    advanced: { ipAddress: proxyHeader ? { ipAddressHeaders: [proxyHeader] } : {} },
    logger: { level: 'error' },
    hooks: {
      before: createAuthMiddleware(async (context) => {
        if (context.path !== SIGN_IN || (await countTry(hashed(context.body?.email)))) return;
        throw new APIError('TOO_MANY_REQUESTS', { message: `Too many tries. Wait ${TRY_WINDOW_MINUTES} minutes.` });
      }),
      after: createAuthMiddleware(async (context) => {
        if (context.path === SIGN_IN && context.context.newSession) await forgetTries(hashed(context.body?.email));
      }),
    },
    plugins: [nextCookies()],
  });
}

type Auth = Awaited<ReturnType<typeof makeAuth>>;

const held = globalThis as typeof globalThis & { rungwiseAuth?: Map<string, Promise<Auth>> };

/**
 * The sign-in library over the clinic's database, made at the first call.
 *
 * Sign-up is closed, sessions end with the shift and are looked up at each request, so that withdrawing one works at once.
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

function secret(): string {
  const text = process.env.AUTH_SECRET;
  if (!text || text.length < 32) throw new Error('AUTH_SECRET is missing or shorter than 32 characters. npm run up makes one by itself.');
  return text;
}

/** Without APP_URL a request may come from the page it was sent to and from nowhere else. */
function ownOrigin(request: Request | undefined): string | null {
  const host = request?.headers.get('host');
  const origin = request?.headers.get('origin');
  return host && (origin === `http://${host}` || origin === `https://${host}`) ? origin : null;
}

function hashed(email: unknown): string {
  return createHash('sha256').update(String(email).trim().toLowerCase()).digest('hex');
}
