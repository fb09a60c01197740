import 'server-only';
import { createAuthEndpoint } from 'better-auth/api';
import { setSessionCookie } from 'better-auth/cookies';
import { hashPassword, verifyPassword } from 'better-auth/crypto';
import { z } from 'zod';
import { noteSignedIn, type Proof, proofOf } from '@/db/people/signing-in';
import { whenFree } from '@/db/sql/storage-trouble';
import { callerAddress } from './caller-address';
import { knownCookie } from './known-browser';
import { beginTry } from './limits';
import { passesFactor } from './second-factor';

/** What a person types to sign in; the code only once they are asked for it. */
export const typedSignIn = z.object({ email: z.string().max(320), password: z.string().max(1000), code: z.string().max(100).optional() });

/** How a try to sign in ended. */
export type SignInAnswer =
  | { readonly kind: 'in' | 'wrong' | 'code-needed' | 'wrong-code' | 'disabled' }
  | { readonly kind: 'too-many'; readonly waitMinutes: number }
  /** A session cannot be kept, because nothing can be written at the moment. */
  | { readonly kind: 'not-now'; readonly why: string };

/**
 * Signing in with e-mail and password, and a second factor where one is set up: a session begins only when all of it is right.
 *
 * For the sign-in library as a plugin without an address of its own; `app/api/auth` is the one door to it.
 */
export function ownSignIn() {
  return {
    id: 'own-sign-in',
    endpoints: {
      signInHere: createAuthEndpoint.serverOnly(
        { method: 'POST', body: typedSignIn, requireHeaders: true },
        async (context): Promise<SignInAnswer> => {
          const { body, headers } = context;
          const attempt = await beginTry(headers, body.email);
          if (attempt.kind === 'too-many') return attempt;
          const proof = await proofOf(body.email);
          if (!(await hasPassword(proof, body.password)) || !proof) return { kind: 'wrong' };
          if (proof.isDisabled) return { kind: 'disabled' };
          if (proof.sealedSecret !== null && !body.code) {
            await attempt.wasRight();
            return { kind: 'code-needed' };
          }
          if (proof.sealedSecret !== null && !(await passesFactor(proof, proof.sealedSecret, body.code ?? '')))
            return { kind: 'wrong-code' };
          const { internalAdapter } = context.context;
          const user = await internalAdapter.findUserById(proof.id);
          if (!user) return { kind: 'wrong' };
          const from = { ipAddress: callerAddress(headers) };
          const session = await whenFree(() => internalAdapter.createSession(proof.id, false, from));
          await setSessionCookie(context, { session, user });
          const { name, value, maxAge } = knownCookie(body.email);
          context.setCookie(name, value, { ...context.context.authCookies.sessionToken.attributes, maxAge });
          await attempt.provedWho();
          await noteSignedIn(proof.id);
          return { kind: 'in' };
        },
      ),
    },
  };
}

/** Somebody without a password costs the same time as a wrong one, so that nobody learns who is known here. */
async function hasPassword(proof: Proof | undefined, password: string): Promise<boolean> {
  if (proof?.passwordHash) return verifyPassword({ hash: proof.passwordHash, password });
  await hashPassword(password);
  return false;
}
