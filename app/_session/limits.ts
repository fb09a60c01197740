import 'server-only';
import { createHash } from 'node:crypto';
import { isIPv6 } from 'node:net';
import { countTry, forgetTries, forgetTriesOf, OF_ONE_ACCOUNT, OF_ONE_ADDRESS } from '@/db/tries';

/** A try that may go on: `wasRight` when it was right but is not yet the last, `provedWho` once the person is in. Or one too many. */
export type Try =
  | { readonly is: 'begun'; readonly wasRight: () => Promise<void>; readonly provedWho: () => Promise<void> }
  | { readonly is: 'too-many'; readonly waitMinutes: number };

/**
 * Counts one try to get in, of the caller's address and of the account or link it aims at.
 *
 * Everything that can be guessed comes through here: passwords, codes of a second factor, recovery codes, one-time links.
 */
export async function beginTry(headers: Headers, aim: string): Promise<Try> {
  const [address, account] = [hashOf(`address ${callerAddress(headers)}`), hashOf(`account ${aim.trim().toLowerCase()}`)];
  const byAddress = await countTry(address, OF_ONE_ADDRESS);
  if (!byAddress) return { is: 'too-many', waitMinutes: OF_ONE_ADDRESS.minutes };
  const byAccount = await countTry(account, OF_ONE_ACCOUNT);
  if (!byAccount) return { is: 'too-many', waitMinutes: OF_ONE_ACCOUNT.minutes };
  const wasRight = () => forgetTries([byAddress, byAccount]);
  const provedWho = async () => {
    await forgetTries([byAddress]);
    await forgetTriesOf(account);
  };
  return { is: 'begun', wasRight, provedWho };
}

/**
 * Where a request comes from, as far as it can be believed.
 *
 * Only the header that TRUSTED_PROXY_HEADER names is read, and of a list its last entry, which the proxy itself has added. Without a
 * proxy no header can be believed, and all callers share one address. A whole IPv6 network (/64) counts as one.
 */
export function callerAddress(headers: Headers, trusted = process.env.TRUSTED_PROXY_HEADER): string {
  const named = trusted ? headers.get(trusted)?.split(',').at(-1)?.trim() : undefined;
  if (!named) return 'unknown';
  return isIPv6(named) ? networkOf(named) : named;
}

/** `2001:db8::7` is in `2001:db8:0:0`; an IPv4 address written as IPv6 is itself. */
function networkOf(address: string): string {
  if (address.includes('.')) return address.slice(address.lastIndexOf(':') + 1);
  const [front = [], back = []] = address.split('::').map((half) => half.split(':').filter(Boolean));
  const zeros = Array(8 - front.length - back.length).fill('0');
  return [...front, ...zeros, ...back].slice(0, 4).join(':');
}

function hashOf(text: string): string {
  return createHash('sha256').update(text).digest('base64url');
}
