/**
 * Whether a request that changes something comes from this program's own pages.
 *
 * A browser that says where a request comes from (`Sec-Fetch-Site`) is believed; it says so on https and on this machine only. Else the
 * `Origin` must be the host the request was sent to, or APP_URL. A request that tells neither is refused.
 * Source: OWASP Cross-Site Request Forgery Prevention Cheat Sheet, "Fetch Metadata headers" with a fallback on the origin.
 */
export function isSameOrigin(headers: Headers, appUrl = process.env.APP_URL): boolean {
  const origin = headers.get('origin');
  const site = headers.get('sec-fetch-site');
  if (site !== null && site !== 'same-origin') return false;
  if (origin === null || origin === 'null') return site === 'same-origin';
  return [appUrl, `http://${headers.get('host')}`, `https://${headers.get('host')}`].some((own) => own && originOf(own) === origin);
}

function originOf(address: string): string | undefined {
  return URL.canParse(address) ? new URL(address).origin : undefined;
}
