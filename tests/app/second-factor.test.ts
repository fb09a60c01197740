import jsQR from 'jsqr';
import { describe, expect, it, vi } from 'vitest';
import { darkSquares } from '@/app/_auth/factor-picture';
import { newRecoveryCodes, recoveryCodeHash } from '@/app/_auth/recovery-codes';
import { offerFactor } from '@/app/_auth/second-factor';
import { codeAt, newSecret, stepOfCode } from '@/app/_auth/totp';

/** `12345678901234567890` in base32: the shared secret of both standards' examples. */
const SECRET = 'GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ';

describe('codes by time', () => {
  it.each([
    // RFC 6238, appendix B, the SHA-1 rows: seconds, eight digits.
    [59, '94287082'],
    [1111111109, '07081804'],
    [1111111111, '14050471'],
    [1234567890, '89005924'],
    [2000000000, '69279037'],
    [20000000000, '65353130'],
  ])('at %d s the code of RFC 6238 is %s', (seconds, code) => {
    expect(codeAt(SECRET, Math.floor(seconds / 30), 8)).toBe(code);
  });

  it.each([
    // RFC 4226, appendix D: count, six digits.
    [0, '755224'],
    [1, '287082'],
    [2, '359152'],
    [5, '254676'],
    [9, '520489'],
  ])('at count %d the code of RFC 4226 is %s', (count, code) => {
    expect(codeAt(SECRET, count)).toBe(code);
  });

  it('takes the code of now, and of one half-minute before and after, and no other text', () => {
    const now = new Date(59_000 * 1000);
    const step = Math.floor(59_000 / 30);
    for (const off of [-1, 0, 1]) expect(stepOfCode(SECRET, codeAt(SECRET, step + off), now)).toBe(step + off);
    for (const off of [-2, 2]) expect(stepOfCode(SECRET, codeAt(SECRET, step + off), now)).toBeUndefined();
    for (const text of ['', '12345', 'abcdef', '００００００', `${codeAt(SECRET, step)}0`])
      expect(stepOfCode(SECRET, text, now)).toBeUndefined();
  });

  it('a secret is 160 bits, each time another', () => {
    const secrets = Array.from({ length: 50 }, newSecret);
    expect(new Set(secrets).size).toBe(50);
    for (const secret of secrets) expect(secret).toMatch(/^[A-Z2-7]{32}$/);
  });
});

describe('the picture of a second factor', () => {
  it('is read by another program as the key that stands beside it, for this person at this clinic', async () => {
    vi.stubEnv('AUTH_SECRET', 'only for this test, signs nothing real');
    const offer = await offerFactor({ id: 'one', email: 'lead@harbour.example' }, 'Harbour Lane');
    vi.unstubAllEnvs();
    const { pixels, size } = drawn(darkSquares(offer.squares), offer.squares.length);
    const read = new URL(jsQR(pixels, size, size)?.data ?? '');
    // The form of the address: Key URI Format, google-authenticator wiki.
    expect([read.protocol, read.host, decodeURIComponent(read.pathname)]).toEqual([
      'otpauth:',
      'totp',
      '/Harbour Lane:lead@harbour.example',
    ]);
    expect([read.searchParams.get('secret'), read.searchParams.get('issuer')]).toEqual([offer.key.replaceAll(' ', ''), 'Harbour Lane']);
  });
});

describe('recovery codes', () => {
  it('are ten of sixteen letters, none like another, and one hash however they are typed', () => {
    const codes = newRecoveryCodes();
    expect(new Set(codes).size).toBe(10);
    for (const code of codes) expect(code).toMatch(/^[a-z2-9]{4}(-[a-z2-9]{4}){3}$/);
    const [code = ''] = codes;
    expect(recoveryCodeHash(code)).toBe(recoveryCodeHash(` ${code.toUpperCase().replaceAll('-', '')} `));
  });
});

/** The path drawn in black on white, four pixels a square, as a camera sees it. */
function drawn(path: string, squares: number): { readonly pixels: Uint8ClampedArray; readonly size: number } {
  const size = squares * 4;
  const pixels = new Uint8ClampedArray(size * size * 4).fill(255);
  for (const [, x = '', y = '', length = ''] of path.matchAll(/M(\d+) (\d+)h(\d+)/g)) {
    for (let row = Number(y) * 4; row < Number(y) * 4 + 4; row += 1) {
      for (let column = Number(x) * 4; column < (Number(x) + Number(length)) * 4; column += 1) {
        pixels.fill(0, (row * size + column) * 4, (row * size + column) * 4 + 3);
      }
    }
  }
  return { pixels, size };
}
