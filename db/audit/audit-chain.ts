import { createHash, randomBytes } from 'node:crypto';
import { eq, sql } from 'drizzle-orm';
import { audit, auditHead } from '../schema/schema';
import { engine } from '../sql/columns';
import type { Database } from '../sql/database';
import { readyInsert, readyQuery } from '../sql/ready-query';
import { type Ended, type Query, rowsOf, type Steps, Together } from '../sql/run-steps';
import { assertKey } from './assert-key';
import { type AuditAction, assertAction, MENDED } from './audit-actions';
import { auditKey } from './audit-key';
import { linkOf, type Named, NO_LINK } from './audit-link';
import { canonical } from './canonical';
import { sealedRow, type TouchedRow } from './touched-rows';

/** An audit row before it is a link of the chain. */
export type AuditEntry = Named & { readonly action: AuditAction };

/** A chain that grew in a write: the links of its new rows; the first has the number `from` + 1. */
export type Grown = { readonly clinicId: string; readonly from: number; readonly before: string; readonly links: readonly string[] };

/** The digest by which a detail enters the chain. Its salt goes when the detail goes: then nobody can try out what it was. */
export function digestOf(salt: string, detail: unknown): string {
  return createHash('sha256')
    .update(`${salt}\n${canonical(detail)}`)
    .digest('base64url');
}

/** An entry made the next link of its clinic's chain, with the rows of content that its write touched. */
export function sealed(
  key: string,
  before: { readonly number: number; readonly link: string },
  entry: Named,
  touched: readonly TouchedRow[],
) {
  const detail = entry.detail ?? null;
  const salt = detail === null && touched.length === 0 ? null : randomBytes(16).toString('base64url');
  const contents = salt === null || touched.length === 0 ? null : touched.map((row) => sealedRow(salt, row));
  const detailDigest = salt === null || detail === null ? null : digestOf(salt, detail);
  const row = { ...entry, number: before.number + 1, detailDigest, contents };
  return { ...row, detail, salt, link: linkOf(key, before.link, row) };
}

/** Two queries of a write that do not wait for each other. */
function* both(one: Query, other: Query): Steps<void> {
  if (engine === 'sqlite') {
    yield one;
    yield other;
    return;
  }
  for (const ended of (yield new Together([one, other])) as readonly Ended[]) if (ended.status === 'rejected') throw ended.reason;
}

const headCountedUp = readyQuery({ length: auditHead.length, link: auditHead.link }, (database) => {
  const more = sql.placeholder('more');
  return database
    .insert(auditHead)
    .values({ clinicId: sql.placeholder('clinicId'), length: more, link: NO_LINK, sealed: 0 })
    .onConflictDoUpdate({ target: auditHead.clinicId, set: { length: sql`${auditHead.length} + excluded.length` } })
    .returning({ length: auditHead.length, link: auditHead.link });
});

const headMoved = readyQuery({ length: auditHead.length }, (database) =>
  database
    .update(auditHead)
    .set({ link: sql`${sql.placeholder('link')}` })
    .where(eq(auditHead.clinicId, sql.placeholder('clinicId')))
    .returning({ length: auditHead.length }),
);

/**
 * Writes entries as the next links of their clinics' chains; an entry whose name is not a known one undoes the whole write.
 *
 * The head is counted up first: on PostgreSQL that holds every other writer of the clinic back until this transaction ends.
 * The rows of content that the write touched go into the first entry; a write that touches some needs an entry.
 */
export function* chained(tx: Database, entries: readonly AuditEntry[], touched: readonly TouchedRow[]): Steps<readonly Grown[]> {
  const grown: Grown[] = [];
  if (touched.length > 0 && entries.length === 0) throw new Error(`A row of ${touched[0]?.table} was written without a deed.`);
  for (const { action } of entries) assertAction(action);
  for (const clinicId of [...new Set(entries.map((entry) => entry.clinicId))].sort()) {
    const own = entries.filter((entry) => entry.clinicId === clinicId);
    const [head] = yield* rowsOf(headCountedUp(tx, { clinicId, more: own.length }));
    if (!head) throw new Error('The head of the audit chain gave no row.');
    const from = head.length - own.length;
    const key = auditKey(from === 0);
    if (own.every((entry) => entry.action !== MENDED)) yield* assertKey(tx, clinicId, key, { number: from, link: head.link });
    const rows: ReturnType<typeof sealed>[] = [];
    for (const entry of own) {
      const before = rows.at(-1) ?? { number: from, link: head.link };
      rows.push(sealed(key, before, entry, entry === entries[0] ? touched : []));
    }
    const insert = readyInsert(tx, audit, rows);
    const link = rows.at(-1)?.link ?? head.link;
    yield* both(insert, headMoved(tx, { clinicId, link }));
    grown.push({ clinicId, from, before: head.link, links: rows.map((row) => row.link) });
  }
  return grown;
}
