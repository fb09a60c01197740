import { createHmac } from 'node:crypto';
import type { audit } from '../schema/schema';
import type { SealedRow } from '../schema/schema-clinic';

/** An audit row before it is a link, also one from before the names were fixed. */
export type Named = Pick<typeof audit.$inferInsert, 'id' | 'clinicId' | 'at' | 'who' | 'action' | 'subjectKind' | 'subjectId' | 'detail'>;

/** An audit row as its link is made from it. */
export type Linked = Omit<Named, 'detail'> & {
  readonly number: number;
  readonly detailDigest: string | null;
  readonly contents: readonly SealedRow[] | null;
};

/** The link before the first row of a clinic. */
export const NO_LINK = '';

/**
 * A row's link: h(n) = HMAC-SHA-256(key, h(n−1) ‖ row), base64url. The row is the JSON array of its values in a fixed order,
 * followed by the rows of content that the deed wrote, when it wrote any.
 *
 * The clinic and the number are among the values: a row cannot be moved to another place or another clinic. Whoever can write the
 * database but has not the key cannot make a link; a tail cut off is seen by a head kept elsewhere (`audit-head.ts`).
 * Source: Bellare, Canetti, Krawczyk, RFC 2104 for HMAC; Crosby and Wallach, USENIX Security 2009, for chains of a log.
 */
export function linkOf(key: string, before: string, row: Linked): string {
  return createHmac('sha256', key)
    .update(`${before}\n${linkedWords(row)}`)
    .digest('base64url');
}

/** What of a row enters its link. */
export function linkedWords({ clinicId, number, id, at, who, action, subjectKind, subjectId, detailDigest, contents }: Linked): string {
  const values = [clinicId, number, id, at.getTime(), who, action, subjectKind, subjectId, detailDigest];
  return JSON.stringify(contents === null ? values : [...values, contents]);
}
