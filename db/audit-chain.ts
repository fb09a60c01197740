import { createHash, createHmac, randomBytes } from 'node:crypto';
import { eq, sql } from 'drizzle-orm';
import { type AuditAction, assertAction } from './audit-actions';
import { auditKey } from './audit-key';
import type { Database } from './client';
import { rowsOf, type Steps } from './run-steps';
import { audit, auditHead } from './schema';

/** A deed to be noted: an audit row before it is a link of the chain. */
export type Note = Named & { readonly action: AuditAction };

/** An audit row before it is a link, also one from before the names were fixed. */
type Named = Pick<typeof audit.$inferInsert, 'id' | 'clinicId' | 'at' | 'who' | 'action' | 'subjectKind' | 'subjectId' | 'detail'>;

/** An audit row as its link is made from it. */
export type Linked = Omit<Named, 'detail'> & { readonly number: number; readonly detailDigest: string | null };

/** A chain that grew in a write: the links of its new rows; the first has the number `from` + 1. */
export type Grown = { readonly clinicId: string; readonly from: number; readonly before: string; readonly links: readonly string[] };

/** The link before the first row of a clinic. */
export const NO_LINK = '';

/**
 * A row's link: h(n) = HMAC-SHA-256(key, h(n−1) ‖ row), base64url. The row is the JSON array of its values in a fixed order.
 *
 * The clinic and the number are among the values: a row cannot be moved to another place or another clinic. Whoever can write the
 * database but has not the key cannot make a link; a tail cut off is seen by a head kept elsewhere (`audit-head.ts`).
 * Source: Bellare, Canetti, Krawczyk, RFC 2104 for HMAC; Crosby and Wallach, USENIX Security 2009, for chains of a log.
 */
export function linkOf(key: string, before: string, row: Linked): string {
  const { clinicId, number, id, at, who, action, subjectKind, subjectId, detailDigest } = row;
  const values = JSON.stringify([clinicId, number, id, at.getTime(), who, action, subjectKind, subjectId, detailDigest]);
  return createHmac('sha256', key).update(`${before}\n${values}`).digest('base64url');
}

/** The digest by which a detail enters the chain. Its salt goes when the detail goes: then nobody can try out what it was. */
export function digestOf(salt: string, detail: unknown): string {
  return createHash('sha256')
    .update(`${salt}\n${canonical(detail)}`)
    .digest('base64url');
}

/** JSON with its keys in order: PostgreSQL gives them back in an order of its own. */
export function canonical(value: unknown): string {
  return JSON.stringify(value, (_key, one) =>
    one && typeof one === 'object' && !Array.isArray(one)
      ? Object.fromEntries(Object.entries(one).sort(([a], [b]) => (a < b ? -1 : 1)))
      : one,
  );
}

/** A note made the next link of its clinic's chain. */
export function sealed(key: string, before: { readonly number: number; readonly link: string }, note: Named) {
  const detail = note.detail ?? null;
  const salt = detail === null ? null : randomBytes(16).toString('base64url');
  const row = { ...note, number: before.number + 1, detailDigest: salt === null ? null : digestOf(salt, detail) };
  return { ...row, detail, salt, link: linkOf(key, before.link, row) };
}

/**
 * Writes notes as the next links of their clinics' chains; a note whose name is not a known one undoes the whole write.
 *
 * The head is counted up first: on PostgreSQL that holds every other writer of the clinic back until this transaction ends.
 */
export function* chained(tx: Database, notes: readonly Note[]): Steps<readonly Grown[]> {
  const grown: Grown[] = [];
  for (const { action } of notes) assertAction(action);
  for (const clinicId of [...new Set(notes.map((note) => note.clinicId))].sort()) {
    const own = notes.filter((note) => note.clinicId === clinicId);
    const [head] = yield* rowsOf(
      tx
        .insert(auditHead)
        .values({ clinicId, length: own.length, link: NO_LINK, sealed: 0 })
        .onConflictDoUpdate({ target: auditHead.clinicId, set: { length: sql`${auditHead.length} + ${own.length}` } })
        .returning({ length: auditHead.length, link: auditHead.link }),
    );
    if (!head) throw new Error('The head of the audit chain gave no row.');
    const from = head.length - own.length;
    const key = auditKey(from === 0);
    const rows: ReturnType<typeof sealed>[] = [];
    for (const note of own) rows.push(sealed(key, rows.at(-1) ?? { number: from, link: head.link }, note));
    yield tx.insert(audit).values(rows).returning({ id: audit.id });
    const link = rows.at(-1)?.link ?? head.link;
    yield tx.update(auditHead).set({ link }).where(eq(auditHead.clinicId, clinicId)).returning({ length: auditHead.length });
    grown.push({ clinicId, from, before: head.link, links: rows.map((row) => row.link) });
  }
  return grown;
}
