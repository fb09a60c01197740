import { HOTP, Secret, TOTP } from 'otpauth';

/** Length of a code's life, seconds. Source: RFC 6238, section 4.1, default X = 30; authenticator programs expect it. */
const STEP_SECONDS = 30;
/** Digits of a code. Source: RFC 4226, section 5.3, at least 6; authenticator programs expect 6. */
const DIGITS = 6;
/** Half-minutes that a clock may be off, each way. Source: RFC 6238, section 5.2, at most one for the delay. */
const STEPS_OFF = 1;
/** Bytes of a secret. Source: RFC 4226, section 4, R6: 160 bits recommended. */
const SECRET_BYTES = 20;

/** A fresh secret of a second factor, in base32 as authenticator programs take it. */
export function newSecret(): string {
  return new Secret({ size: SECRET_BYTES }).base32;
}

/**
 * The code of one half-minute: the last digits of the truncated HMAC-SHA-1 of its number.
 *
 * Source: RFC 4226, section 5.3, and RFC 6238, section 4.2. Example: RFC 6238, appendix B, `12345678901234567890` at step 1, eight digits,
 * is 94287082.
 */
export function codeAt(secret: string, step: number, digits = DIGITS): string {
  return HOTP.generate({ secret: Secret.fromBase32(secret), counter: step, digits });
}

/** The half-minute whose code this is, now or one before or after; undefined for any other text. Compared in constant time. */
export function stepOfCode(secret: string, typed: string, now: Date): number | undefined {
  const token = typed.replace(/\s/g, '');
  if (!/^[0-9]+$/.test(token)) return undefined;
  const given = { digits: DIGITS, period: STEP_SECONDS, timestamp: now.getTime() };
  const off = TOTP.validate({ ...given, token, secret: Secret.fromBase32(secret), window: STEPS_OFF });
  return off === null ? undefined : TOTP.counter(given) + off;
}

/** The address that an authenticator program reads from a QR code. The label is who signs in where. */
export function factorAddress(secret: string, issuer: string, email: string): string {
  const label = encodeURIComponent(`${issuer}:${email}`);
  return `otpauth://totp/${label}?secret=${secret}&issuer=${encodeURIComponent(issuer)}`;
}
