import { getAuth } from '@/app/_auth/auth';
import { type SignInAnswer, typedSignIn } from '@/app/_auth/own-sign-in';
import { isSameOrigin } from '@/app/_auth/same-origin';
import { TROUBLE_WORDS } from '@/app/_shell/trouble-words';
import { troubleOf } from '@/db/sql/storage-trouble';

const STATUS = { in: 200, wrong: 401, 'code-needed': 401, 'wrong-code': 401, disabled: 401, 'too-many': 429, 'not-now': 503 };

/** Signing in, and nothing else of the sign-in library: its other addresses do not answer. */
export async function POST(request: Request): Promise<Response> {
  if (new URL(request.url).pathname !== '/api/auth/sign-in/email') return new Response(null, { status: 404 });
  if (!isSameOrigin(request.headers)) return new Response(null, { status: 403 });
  const body = typedSignIn.safeParse(await request.json().catch(() => undefined));
  if (!body.success) return new Response(null, { status: 400 });
  const auth = await getAuth();
  try {
    const { response, headers } = await auth.api.signInHere({ body: body.data, headers: request.headers, returnHeaders: true });
    return Response.json(response, { status: STATUS[response.kind], headers });
  } catch (error) {
    const trouble = troubleOf(error);
    if (!trouble) throw error;
    const answer: SignInAnswer = { kind: 'not-now', why: TROUBLE_WORDS[trouble] };
    return Response.json(answer, { status: 503, headers: { 'Retry-After': '60' } });
  }
}
