import { getAuth } from '@/app/_session/auth';
import { typedSignIn } from '@/app/_session/own-sign-in';
import { isSameOrigin } from '@/app/_session/same-origin';

const STATUS = { in: 200, wrong: 401, 'code-needed': 401, 'wrong-code': 401, disabled: 401, 'too-many': 429 };

/** Signing in, and nothing else of the sign-in library: its other addresses do not answer. */
export async function POST(request: Request): Promise<Response> {
  if (new URL(request.url).pathname !== '/api/auth/sign-in/email') return new Response(null, { status: 404 });
  if (!isSameOrigin(request.headers)) return new Response(null, { status: 403 });
  const body = typedSignIn.safeParse(await request.json().catch(() => undefined));
  if (!body.success) return new Response(null, { status: 400 });
  const auth = await getAuth();
  const { response, headers } = await auth.api.signInHere({ body: body.data, headers: request.headers, returnHeaders: true });
  return Response.json(response, { status: STATUS[response.is], headers });
}
