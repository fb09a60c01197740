import { and, asc, count, eq, gt, isNull, lt, lte, max, or } from 'drizzle-orm';
import type { KeptHead } from '../audit/audit-head';
import { auditKey } from '../audit/audit-key';
import { NO_LINK } from '../audit/audit-link';
import { type BrokenRun, ChainWalk, type LatestSeals } from '../audit/chain-walk';
import { audit, auditHead } from '../schema/schema';
import type { Database } from '../sql/database';

const PAGE = 2000;

/** A head of a chain that was kept outside the database, and where. */
export type OuterHead = { readonly where: string; readonly head: KeptHead };

/** What the check of one clinic's chain found. */
export type ChainChecked = {
  readonly rows: number;
  readonly sealed: number;
  readonly erased: number;
  readonly head: KeptHead;
  /** The rows of content that the deeds name, each as the latest left it. */
  readonly seals: LatestSeals;
  /** Rows of content sealed as they stood when content began to be sealed, and when that was. */
  readonly asItStood: { readonly rows: number; readonly at: Date | undefined };
  /** Who signed for broken parts, in a sentence each, and the parts nobody has signed for. */
  readonly signedFor: readonly string[];
  readonly broken: readonly BrokenRun[];
  /** Heads kept outside that the chain does not reach, or contradicts. */
  readonly lost: readonly KeptHead[];
  /** A sentence each; none when the chain holds. */
  readonly problems: readonly string[];
};

/**
 * Checks every link of a clinic's chain, the details against their digests, and the heads kept outside against the rows they name.
 *
 * With `newest` only that many rows from the end are read.
 */
export async function checkAudit(
  database: Database,
  clinicId: string,
  outer: readonly OuterHead[],
  newest = Number.POSITIVE_INFINITY,
): Promise<ChainChecked> {
  const own = eq(audit.clinicId, clinicId);
  const [head = { length: 0, link: NO_LINK, sealed: 0 }] = await database.select().from(auditHead).where(eq(auditHead.clinicId, clinicId));
  const problems: string[] = [];
  const [loose] = await database
    .select({ rows: count() })
    .from(audit)
    .where(and(own, or(isNull(audit.link), isNull(audit.number), lt(audit.number, 1))));
  if (loose && loose.rows > 0)
    problems.push(`${rowsIn(loose.rows)} of the history ${loose.rows === 1 ? 'stands' : 'stand'} outside the chain.`);
  const start = Math.max(0, head.length - newest);
  const chain = new ChainWalk(auditKey(head.length === 0), start, start === 0 ? NO_LINK : await linkAt(database, clinicId, start));
  for (;;) {
    const next = and(own, gt(audit.number, chain.number), lte(audit.number, head.length));
    const page = await database.select().from(audit).where(next).orderBy(asc(audit.number)).limit(PAGE);
    for (const row of page) chain.take(row);
    if (page.length < PAGE) break;
  }
  problems.push(...chain.findings(), ...(await endOf(database, clinicId, chain, head)));
  if (start === 0 && head.sealed !== chain.sealedBefore)
    problems.push(`The head in the database says that ${rowsIn(head.sealed)} came before the chain; its deeds say ${chain.sealedBefore}.`);
  if (start > 0 && chain.signedFor.length + problems.length > 0) return checkAudit(database, clinicId, outer);
  const lost: KeptHead[] = [];
  for (const { where, head: kept } of outer) {
    if (chain.lostHeads.has(kept.link)) continue;
    const before = problems.length;
    if (kept.length > chain.number) {
      problems.push(
        `${rowsIn(kept.length - chain.number)} at the end ${kept.length - chain.number === 1 ? 'is' : 'are'} missing: the head ${where} names row ${kept.length}, the last there is has number ${chain.number}.`,
      );
    } else if (kept.link !== (kept.length === 0 ? NO_LINK : await linkAt(database, clinicId, kept.length))) {
      problems.push(`Row ${kept.length} is not the one that the head ${where} names.`);
    }
    if (problems.length > before) lost.push(kept);
  }
  return {
    rows: chain.number,
    sealed: head.sealed,
    erased: chain.blanked.size,
    head: { length: chain.number, link: chain.link },
    seals: chain.seals,
    asItStood: chain.asItStood,
    signedFor: chain.signedFor,
    broken: chain.broken(),
    lost,
    problems,
  };
}

/**
 * Whether the chain ends where its head in the database says. Deeds may be added while this looks: rows beyond the head as it was read
 * first are right when the head has gone on with them.
 */
async function endOf(database: Database, clinicId: string, chain: ChainWalk, head: KeptHead): Promise<readonly string[]> {
  if (chain.number === 0) return ['There is no history at all, although the first deed of a clinic is that its first person was added.'];
  if (chain.number !== head.length)
    return [`The chain ends at row ${chain.number}, but its head in the database names row ${head.length}.`];
  if (chain.link !== head.link) return [`The head in the database names another row ${head.length} than the last of the chain.`];
  const [last] = await database
    .select({ number: max(audit.number) })
    .from(audit)
    .where(eq(audit.clinicId, clinicId));
  const [now] = await database.select({ length: auditHead.length }).from(auditHead).where(eq(auditHead.clinicId, clinicId));
  const beyond = (last?.number ?? 0) - (now?.length ?? 0);
  return beyond > 0 ? [`${rowsIn(beyond)} of the history ${beyond === 1 ? 'stands' : 'stand'} beyond its head.`] : [];
}

/** The link of a row of a clinic's history; words that are no link when there is no such row. */
export async function linkAt(database: Database, clinicId: string, number: number): Promise<string> {
  const [row] = await database
    .select({ link: audit.link })
    .from(audit)
    .where(and(eq(audit.clinicId, clinicId), eq(audit.number, number)));
  return row?.link ?? 'no such row';
}

function rowsIn(count: number): string {
  return count === 1 ? 'One row' : `${count} rows`;
}
