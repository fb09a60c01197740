import 'server-only';
import { isIPv6 } from 'node:net';

/**
 * Where a request comes from, as far as it can be believed.
 *
 * The header that TRUSTED_PROXY_HEADER names is read, and of a list its last entry, which the proxy itself has added. Else the address of
 * the socket counts: the guard of every request puts it into a header whose name is made anew at each start, so that nobody outside can
 * write it. Without either all callers share one address. A whole IPv6 network (/64) counts as one.
 */
export function callerAddress(
  headers: Headers,
  trusted = process.env.TRUSTED_PROXY_HEADER,
  socket = process.env.RUNGWISE_CALLER_HEADER,
): string {
  const named = trusted ? headers.get(trusted)?.split(',').at(-1)?.trim() : undefined;
  const address = named || (socket && headers.get(socket)) || 'unknown';
  return isIPv6(address) ? networkOf(address) : address;
}

/** `2001:db8::7` is in `2001:db8:0:0`; an IPv4 address written as IPv6 is itself. */
function networkOf(address: string): string {
  if (address.includes('.')) return address.slice(address.lastIndexOf(':') + 1);
  const [front = [], back = []] = address.split('::').map((half) => half.split(':').filter(Boolean));
  const zeros = Array(8 - front.length - back.length).fill('0');
  return [...front, ...zeros, ...back].slice(0, 4).join(':');
}
