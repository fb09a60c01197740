import { describe, expect, it } from 'vitest';
import { deviceInWords } from '@/app/_auth/device-in-words';
import { isSameOrigin } from '@/app/_auth/same-origin';

const asks = (sent: Record<string, string>, appUrl?: string) => isSameOrigin(new Headers({ host: '127.0.0.1:3000', ...sent }), appUrl);

/** What browsers send: Fetch Metadata Request Headers (W3C), and the Origin header (Fetch standard, RFC 6454). */
describe('where a change is asked from', () => {
  it.each([
    ['the page itself', { origin: 'http://127.0.0.1:3000', 'sec-fetch-site': 'same-origin' }],
    ['an older browser', { origin: 'http://127.0.0.1:3000' }],
    ['a page without a referrer', { origin: 'null', 'sec-fetch-site': 'same-origin' }],
  ])('%s may', (_who, sent) => expect(asks(sent)).toBe(true));

  it.each([
    ['nobody says where', {}],
    ['an opaque page', { origin: 'null' }],
    ['another site', { origin: 'https://elsewhere.example', 'sec-fetch-site': 'cross-site' }],
    ['another port of this machine', { origin: 'http://127.0.0.1:8080' }],
    ['a host that begins like ours', { origin: 'http://127.0.0.1:3000.elsewhere.example' }],
    ['a sibling', { origin: 'http://127.0.0.1:3000', 'sec-fetch-site': 'same-site' }],
    ['the address bar', { 'sec-fetch-site': 'none' }],
    ['somebody who names a host of their own', { origin: 'https://elsewhere.example', 'x-forwarded-host': 'elsewhere.example' }],
    ['text that is no address', { origin: 'elsewhere' }],
  ])('%s may not', (_who, sent) => expect(asks(sent)).toBe(false));

  it('behind a proxy the address people type counts as well', () => {
    expect(asks({ origin: 'https://clinic.example' }, 'https://clinic.example/')).toBe(true);
    expect(asks({ origin: 'https://clinic.example.elsewhere.example' }, 'https://clinic.example/')).toBe(false);
  });
});

/** User agents as browsers send them; MDN, "User-Agent", and vendors' pages, 2024. */
describe('a browser in words', () => {
  it.each([
    [
      'Mozilla/5.0 (Windows NT 10.0; Win64; x64) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/130.0.0.0 Safari/537.36',
      'Chrome on Windows',
    ],
    [
      'Mozilla/5.0 (Windows NT 10.0; Win64; x64) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/130.0.0.0 Safari/537.36 Edg/130.0.0.0',
      'Edge on Windows',
    ],
    ['Mozilla/5.0 (Macintosh; Intel Mac OS X 10.15; rv:132.0) Gecko/20100101 Firefox/132.0', 'Firefox on Mac'],
    [
      'Mozilla/5.0 (iPhone; CPU iPhone OS 17_6 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/17.6 Mobile/15E148 Safari/604.1',
      'Safari on iPhone',
    ],
    [
      'Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/130.0.0.0 Mobile Safari/537.36',
      'Chrome on Android',
    ],
    [
      'Mozilla/5.0 (X11; CrOS x86_64 14541.0.0) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/130.0.0.0 Safari/537.36',
      'Chrome on Chromebook',
    ],
    ['curl/8.5.0', 'A browser that does not tell'],
  ])('%s', (agent, words) => expect(deviceInWords(agent)).toBe(words));
});
