import { and, eq, inArray } from 'drizzle-orm';
import { audit } from '../schema/schema';
import type { Database } from '../sql/database';
import { DatabaseRefused } from '../sql/database-refused';
import { rowsOf, type Steps } from '../sql/run-steps';
import { linkOf, NO_LINK } from './audit-link';

/** The key with which the newest link of each clinic was found to fit, in this process. */
const fits = new Map<string, string>();

/**
 * Refuses a write when the newest link of the chain was not made with this key: links of two keys would break the chain for good.
 *
 * Looked at before the first write of a process. A lead can sign for a history that was broken so (`mend-history.ts`).
 */
export function* assertKey(
  tx: Database,
  clinicId: string,
  key: string,
  newest: { readonly number: number; readonly link: string },
): Steps<void> {
  if (newest.number > 0 && fits.get(clinicId) !== key) {
    const last = and(eq(audit.clinicId, clinicId), inArray(audit.number, [newest.number - 1, newest.number]));
    const rows = yield* rowsOf(tx.select().from(audit).where(last));
    const row = rows.find((one) => one.number === newest.number);
    const before = rows.find((one) => one.number === newest.number - 1)?.link ?? NO_LINK;
    if (!row || row.link !== newest.link || linkOf(key, before, { ...row, number: newest.number }) !== row.link)
      throw new DatabaseRefused(WRONG_KEY);
  }
  fits.set(clinicId, key);
}

const WRONG_KEY =
  'The newest row of the history was not sealed with this AUDIT_KEY, or was changed. Nothing was written. Set the key it was sealed with; if there is none, a lead signs for it with npm run mend-history.';
