import type { SignInAnswer } from '@/app/_auth/own-sign-in';

/** What the form has to say after a try that did not get in. */
export type Asked = { readonly refusal: string; readonly needsCode: boolean };

const WRONG = 'This e-mail and password do not match. Check both and try again.';
const WRONG_CODE = 'This code does not fit, or was used before. Wait for the next one, or type a recovery code.';
const DISABLED = 'This sign-in is switched off. Ask the clinic lead.';
const AWAY = 'The server did not answer. Nothing was lost. Try again in a moment.';

/** Posts what was typed to the one address that signs in, and puts the answer in words. */
export async function askToSignIn(email: string, password: string, code: string): Promise<'in' | Asked> {
  const answer = await posted({ email, password, ...(code && { code }) });
  switch (answer?.kind) {
    case 'in':
      return 'in';
    case 'code-needed':
      return { refusal: '', needsCode: true };
    case 'wrong-code':
      return { refusal: WRONG_CODE, needsCode: true };
    case 'wrong':
      return { refusal: WRONG, needsCode: false };
    case 'disabled':
      return { refusal: DISABLED, needsCode: false };
    case 'too-many':
      return { refusal: tooMany(answer.waitMinutes), needsCode: code !== '' };
    case 'not-now':
      return { refusal: answer.why, needsCode: code !== '' };
    default:
      return { refusal: AWAY, needsCode: code !== '' };
  }
}

async function posted(body: Readonly<Record<string, string>>): Promise<SignInAnswer | undefined> {
  try {
    const headers = { 'content-type': 'application/json' };
    const answer = await fetch('/api/auth/sign-in/email', { method: 'POST', headers, body: JSON.stringify(body) });
    return answer.headers.get('content-type')?.includes('json') ? await answer.json() : undefined;
  } catch {
    return undefined;
  }
}

function tooMany(waitMinutes: number): string {
  const wait = waitMinutes === 1 ? 'Wait a minute' : `Wait ${waitMinutes} minutes`;
  return `Too many wrong tries. ${wait}, then try again; the clinic lead can help, too.`;
}
