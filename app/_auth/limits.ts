import 'server-only';
import { createHash } from 'node:crypto';
import {
  type Counted,
  countTry,
  forgetTries,
  forgetTriesOf,
  type Limit,
  OF_ACCOUNT_AND_CALLER,
  OF_ACCOUNT_FROM_STRANGERS,
  OF_CALLER,
  OF_KNOWN_BROWSER,
} from '@/db/people/login-attempts';
import { callerAddress } from './caller-address';
import { knownBrowser } from './known-browser';

/** A try that may go on: `wasRight` when it was right but is not yet the last, `provedWho` once the person is in. Or one too many. */
export type Try =
  | { readonly kind: 'begun'; readonly wasRight: () => Promise<void>; readonly provedWho: () => Promise<void> }
  | { readonly kind: 'too-many'; readonly waitMinutes: number };

type Budget = { readonly whose: string; readonly limit: Limit; readonly isOwn: boolean };

/**
 * Counts one try to get in, of who tries and of the account or link it aims at.
 *
 * Everything that can be guessed comes through here: passwords, codes of a second factor, recovery codes, one-time links. A browser that
 * signed in to the account before has a budget of its own, which no stranger can use up; everybody else is counted by their address, by
 * account and address, and with all other strangers of the account.
 * Source: OWASP, “Slow down online guessing attacks with device cookies” (from memory).
 */
export async function beginTry(headers: Headers, aim: string): Promise<Try> {
  const begun: string[] = [];
  const budgets = budgetsOf(headers, aim);
  for (const { whose, limit } of budgets) {
    const counted: Counted = await countTry(whose, limit);
    if (counted.kind === 'must-wait') {
      if (begun.length > 0) await forgetTries(begun);
      return { kind: 'too-many', waitMinutes: Math.ceil(counted.waitMs / 60_000) };
    }
    begun.push(counted.id);
  }
  const wasRight = () => forgetTries(begun);
  const provedWho = async () => {
    await forgetTries(begun);
    for (const { whose, isOwn } of budgets) if (isOwn) await forgetTriesOf(whose);
  };
  return { kind: 'begun', wasRight, provedWho };
}

function budgetsOf(headers: Headers, aim: string): readonly Budget[] {
  const account = `account ${aim.trim().toLowerCase()}`;
  const browser = knownBrowser(headers, aim);
  if (browser) return [{ whose: hashOf(`browser ${browser} ${account}`), limit: OF_KNOWN_BROWSER, isOwn: true }];
  const caller = `address ${callerAddress(headers)}`;
  return [
    { whose: hashOf(caller), limit: OF_CALLER, isOwn: false },
    { whose: hashOf(`${caller} ${account}`), limit: OF_ACCOUNT_AND_CALLER, isOwn: true },
    { whose: hashOf(account), limit: OF_ACCOUNT_FROM_STRANGERS, isOwn: false },
  ];
}

function hashOf(text: string): string {
  return createHash('sha256').update(text).digest('base64url');
}
