import { createHmac, randomBytes } from 'node:crypto';

/** Length of a code's life, seconds. Source: RFC 6238, section 4.1, default X = 30; authenticator programs expect it. */
const STEP_SECONDS = 30;
/** Digits of a code. Source: RFC 4226, section 5.3, at least 6; authenticator programs expect 6. */
const DIGITS = 6;
/** Half-minutes that a clock may be off, each way. Source: RFC 6238, section 5.2, at most one for the delay. */
const STEPS_OFF = 1;
/** Bytes of a secret. Source: RFC 4226, section 4, R6: 160 bits recommended. */
const SECRET_BYTES = 20;

const BASE32 = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';

/** A fresh secret of a second factor, in base32 as authenticator programs take it. */
export function newSecret(): string {
  const bits = [...randomBytes(SECRET_BYTES)].map((byte) => byte.toString(2).padStart(8, '0')).join('');
  return (bits.match(/.{5}/g) ?? []).map((five) => BASE32[Number.parseInt(five, 2)]).join('');
}

/**
 * The code of one half-minute: the last digits of the truncated HMAC-SHA-1 of its number.
 *
 * Source: RFC 4226, section 5.3, and RFC 6238, section 4.2. Example: RFC 6238, appendix B, `12345678901234567890` at step 1, eight digits,
 * is 94287082.
 */
export function codeAt(secret: string, step: number, digits = DIGITS): string {
  const counter = Buffer.alloc(8);
  counter.writeBigUInt64BE(BigInt(step));
  const hash = createHmac('sha1', bytesOf(secret)).update(counter).digest();
  const offset = (hash.at(-1) ?? 0) & 0xf;
  return String((hash.readUInt32BE(offset) & 0x7fffffff) % 10 ** digits).padStart(digits, '0');
}

/** The half-minute whose code this is, now or one before or after; undefined for any other text. */
export function stepOfCode(secret: string, typed: string, now: Date): number | undefined {
  const code = typed.replace(/\s/g, '');
  const current = Math.floor(now.getTime() / 1000 / STEP_SECONDS);
  for (let step = current - STEPS_OFF; step <= current + STEPS_OFF; step += 1) {
    if (code === codeAt(secret, step)) return step;
  }
  return undefined;
}

/** The address that an authenticator program reads from a QR code. The label is who signs in where. */
export function factorAddress(secret: string, issuer: string, email: string): string {
  const label = encodeURIComponent(`${issuer}:${email}`);
  return `otpauth://totp/${label}?secret=${secret}&issuer=${encodeURIComponent(issuer)}`;
}

function bytesOf(secret: string): Buffer {
  const bits = [...secret].map((letter) => BASE32.indexOf(letter).toString(2).padStart(5, '0')).join('');
  return Buffer.from((bits.match(/.{8}/g) ?? []).map((byte) => Number.parseInt(byte, 2)));
}
