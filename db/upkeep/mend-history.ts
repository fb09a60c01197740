import { MENDED } from '../audit/audit-actions';
import { auditEntry } from '../audit/audit-entry';
import type { OuterHeads } from '../audit/audit-head';
import { getDatabase } from '../client';
import type { Therapist } from '../therapist';
import { inTransaction } from '../transaction';
import { checkAudit } from './check-audit';

/** What is wrong with a history, and what a lead can sign for: runs of rows not sealed with the key, and heads it does not reach. */
export type Mendable = Awaited<ReturnType<typeof checkAudit>>;

/** Looks at the whole history of the lead's clinic. */
export async function brokenHistory(lead: Therapist, outer: readonly OuterHeads[]): Promise<Mendable> {
  const kept = outer.flatMap(({ where, heads }) => (heads[lead.clinicId] ? [{ where, head: heads[lead.clinicId] }] : []));
  const known = kept.flatMap(({ where, head }) => (head ? [{ where, head }] : []));
  return checkAudit(await getDatabase(), lead.clinicId, known);
}

/**
 * Signs for what is broken: a deed that names the rows as they stand, by their digest, and the heads that are lost, with the reason.
 *
 * Nothing is sealed anew: the rows stay as they are, and the history says who vouches for them. After it the chain holds again under the
 * key of today. False when there was nothing to sign for.
 */
export async function mendHistory(lead: Therapist, found: Mendable, reason: string, at = new Date()): Promise<boolean> {
  if (lead.role !== 'lead') throw new Error('Only a lead signs for a broken history.');
  const { broken: runs, lost: heads } = found;
  if (runs.length === 0 && heads.length === 0) return false;
  const detail = { reason, runs, heads };
  await inTransaction([auditEntry(lead, { action: MENDED, subjectKind: 'clinic', subjectId: lead.clinicId, detail }, at)]);
  return true;
}
