import { createHash } from 'node:crypto';

/**
 * The id of a row that one form makes: the same parts give the same id, so that a form sent twice meets its own rows.
 *
 * Shape: whatever tells rows of all forms apart; a UUID of version 8 from the first 128 bits of their SHA-256. Source: RFC 9562 section 5.8.
 */
export function deterministicId(...parts: readonly string[]): string {
  const bytes = createHash('sha256').update(JSON.stringify(parts)).digest().subarray(0, 16);
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x80;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  return bytes.toString('hex').replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
}
