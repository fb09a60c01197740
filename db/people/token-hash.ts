import { createHash } from 'node:crypto';

/** What is kept of a token that opens something: whoever reads the database cannot open it. SHA-256, base64url. */
export function hashOf(token: string): string {
  return createHash('sha256').update(token).digest('base64url');
}
