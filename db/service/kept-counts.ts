import { eq, sql } from 'drizzle-orm';
import type { ServiceCounts } from '@/lib/service/service-counts';
import type { ServicePeriod } from '@/lib/service/service-period';
import { getDatabase } from '../client';
import { auditHead, workState } from '../schema/schema';
import type { Therapist } from '../therapist';
import { periodCounts, wholeCounts } from './service-counts';

type Kept = { readonly stamp: string; readonly counts: Partial<ServiceCounts> };

/** Counts kept in this process: one of the whole record and one a period for each clinic, the least lately used goes first. Clinic default. */
const MOST = 64;
const kept = new Map<string, Kept>();

/**
 * What the clinic's record holds of its own service, counted anew after any write and taken as it was counted where there was none.
 *
 * Every deed moves the end of the clinic's chain, and every renewal of what is computed counts up, whichever process wrote; both are read first, and what was counted stands for
 * just that. Counts during which something was written are given and not kept. What is of the whole record is kept apart, so that another period costs its own counts alone.
 */
export async function keptServiceCounts(therapist: Therapist, period: ServicePeriod): Promise<ServiceCounts> {
  const { clinicId } = therapist;
  const stamp = await stampOf(clinicId);
  const whole = await keptOr(`${clinicId} whole`, clinicId, stamp, () => wholeCounts(therapist));
  const name = `${clinicId} ${period.from ?? ''} ${period.to}`;
  return { ...whole, ...(await keptOr(name, clinicId, stamp, () => periodCounts(therapist, period))) };
}

async function keptOr<C extends Partial<ServiceCounts>>(
  name: string,
  clinicId: string,
  stamp: string,
  count: () => Promise<C>,
): Promise<C> {
  const before = kept.get(name);
  if (before?.stamp === stamp) {
    kept.delete(name);
    kept.set(name, before);
    return before.counts as C;
  }
  const counts = await count();
  if ((await stampOf(clinicId)) !== stamp) return counts;
  kept.delete(name);
  kept.set(name, { stamp, counts });
  for (const oldest of [...kept.keys()].slice(0, Math.max(0, kept.size - MOST))) kept.delete(oldest);
  return counts;
}

async function stampOf(clinicId: string): Promise<string> {
  const database = await getDatabase();
  const [head] = await database.select({ link: auditHead.link }).from(auditHead).where(eq(auditHead.clinicId, clinicId));
  const [work] = await database
    .select({ renewals: sql`coalesce(sum(${workState.renewals}), 0)`.mapWith(Number), patients: sql`count(*)`.mapWith(Number) })
    .from(workState)
    .where(eq(workState.clinicId, clinicId));
  return `${head?.link} ${work?.renewals} ${work?.patients}`;
}
