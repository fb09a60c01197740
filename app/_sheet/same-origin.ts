/** Whether a request that changes something comes from this program's own pages: its Origin is the host it was sent to. */
export function isSameOrigin(headers: Headers): boolean {
  const origin = headers.get('origin');
  const host = headers.get('x-forwarded-host') ?? headers.get('host');
  if (headers.get('sec-fetch-site') && headers.get('sec-fetch-site') !== 'same-origin') return false;
  return origin !== null && host !== null && URL.canParse(origin) && new URL(origin).host === host;
}
