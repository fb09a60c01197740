import { and, asc, eq, isNull, notInArray } from 'drizzle-orm';
import { audit, auditHead } from '../schema/schema';
import type { Database } from '../sql/database';
import { rowsOf, type Steps } from '../sql/run-steps';
import { sealed } from './audit-chain';
import type { KeptHeads } from './audit-head';
import { auditKey } from './audit-key';
import { NO_LINK } from './audit-link';

const PAGE = 500;

/**
 * Seals the rows that were written before there was a chain: they become its first links, in the order of their time.
 *
 * Runs inside the transaction that brings a database up to date, and only for a clinic that has no chain yet. `sealed` keeps how many
 * there were: the chain proves that they have not changed since, not that they had not before.
 */
export function* sealEarlier(tx: Database): Steps<KeptHeads> {
  const begun = yield* rowsOf(tx.select({ clinicId: auditHead.clinicId }).from(auditHead));
  const none = notInArray(
    audit.clinicId,
    begun.map((one) => one.clinicId),
  );
  const clinics = yield* rowsOf(tx.selectDistinct({ clinicId: audit.clinicId }).from(audit).where(none));
  const heads: Record<string, { length: number; link: string }> = {};
  for (const { clinicId } of clinics) {
    const { number: length, link } = yield* sealClinic(tx, clinicId);
    yield tx.insert(auditHead).values({ clinicId, length, link, sealed: length }).returning({ length: auditHead.length });
    heads[clinicId] = { length, link };
  }
  return heads;
}

function* sealClinic(tx: Database, clinicId: string): Steps<{ readonly number: number; readonly link: string }> {
  const key = auditKey(true);
  const open = and(eq(audit.clinicId, clinicId), isNull(audit.link));
  let before: { readonly number: number; readonly link: string } = { number: 0, link: NO_LINK };
  for (;;) {
    const page = yield* rowsOf(tx.select().from(audit).where(open).orderBy(asc(audit.at), asc(audit.id)).limit(PAGE));
    for (const row of page) {
      const next = sealed(key, before, row, []);
      const { number, salt, detailDigest, link } = next;
      yield tx.update(audit).set({ number, salt, detailDigest, link }).where(eq(audit.id, row.id)).returning({ id: audit.id });
      before = next;
    }
    if (page.length < PAGE) return before;
  }
}
