import { getAuth } from '@/app/_session/auth';

/**
 * Signing in, and nothing else of the sign-in library: its other addresses do not answer.
 *
 * The form posts here, not to a server action, because the limit on tries counts requests to this address.
 */
export async function POST(request: Request): Promise<Response> {
  if (new URL(request.url).pathname !== '/api/auth/sign-in/email') return new Response(null, { status: 404 });
  const auth = await getAuth();
  return auth.handler(request);
}
