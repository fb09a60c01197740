import { and, asc, eq, gte, inArray, lte, or, type SQL, type SQLWrapper, sql } from 'drizzle-orm';
import type { ServiceCounts } from '@/lib/service/service-counts';
import { changedParts, countsOfParts, type PartFigure, type ServicePart, summedParts } from '@/lib/service/service-parts';
import type { ServicePeriod } from '@/lib/service/service-period';
import { getDatabase } from '../client';
import { serviceCount } from '../schema/schema';
import type { Therapist } from '../therapist';
import { partsOf } from './patient-parts';
import { storedParts, sumsIn, uncountedOf } from './renew-parts';
import { serviceCounts } from './service-counts';

/** So many patients that were written to and not counted since are counted beside the stored counts; with more all is counted anew. Clinic default. */
const MOST_BESIDE = 100;

/** Figures of which only the sums over a period are asked; of the others every month is. */
const OF_PERIOD: readonly PartFigure[] = ['answer', 'verdict', 'miss', 'outlook', 'without', 'excess'];
/** Of these a month after the period matters (`countsOfParts`). */
const LAST_COUNTS: readonly PartFigure[] = ['answer', 'without'];
const OF_MONTHS: readonly PartFigure[] = ['fitting', 'day', 'kept', 'delivered', 'booked'];

/**
 * What the clinic's record holds of its own service, from the stored counts.
 *
 * Patients that were not counted since they were written to are first taken off as they were added and then added as the record has them, so that the answer is that of the
 * record, whether anything could be written or not. All is counted anew where they are too many, and where something lies after the period. Nothing is written.
 */
export async function storedServiceCounts(therapist: Therapist, period: ServicePeriod): Promise<ServiceCounts> {
  const uncounted = await uncountedOf(therapist, MOST_BESIDE + 1);
  if (uncounted.length > MOST_BESIDE) return serviceCounts(therapist, period);
  const stored = await partsInPeriod(therapist, period);
  const parts = uncounted.length > 0 ? summedParts([...stored, ...(await notYetCounted(therapist, uncounted))]) : stored;
  return countsOfParts(parts, period) ?? (await serviceCounts(therapist, period));
}

async function notYetCounted(therapist: Therapist, patientIds: readonly string[]): Promise<readonly ServicePart[]> {
  const before = await storedParts(therapist, patientIds);
  const after = await partsOf(await getDatabase(), therapist, patientIds);
  return patientIds.flatMap((patientId) => changedParts(before.get(patientId) ?? [], after.get(patientId) ?? []));
}

async function partsInPeriod(therapist: Therapist, period: ServicePeriod): Promise<readonly ServicePart[]> {
  const database = await getDatabase();
  const { clinicId, figure, at, of, sum0, sum1, sum2, sum3, sum4, sum5, sum6 } = serviceCount;
  const ours = eq(clinicId, therapist.clinicId);
  const months = await database
    .select({ figure, at, of, sum0, sum1, sum2, sum3, sum4, sum5, sum6 })
    .from(serviceCount)
    .where(and(ours, inArray(figure, [...OF_MONTHS])))
    .orderBy(asc(figure), asc(at), asc(of));
  const added = (sum: SQLWrapper): SQL<number> => sql<number>`sum(${sum})`;
  const within = and(
    ours,
    inArray(figure, [...OF_PERIOD]),
    period.from ? gte(at, period.from) : undefined,
    or(lte(at, period.to), inArray(figure, [...LAST_COUNTS])),
  );
  const sums = await database
    .select({
      ...{ figure, at: sql<string>`max(${at})`, of, sum0: added(sum0), sum1: added(sum1), sum2: added(sum2) },
      ...{ sum3: added(sum3), sum4: added(sum4), sum5: added(sum5), sum6: added(sum6) },
    })
    .from(serviceCount)
    .where(within)
    .groupBy(figure, of)
    .orderBy(asc(figure), asc(of));
  return [...months, ...sums].map((row) => ({ ...row, sums: sumsIn(row) })).filter((part) => part.sums.some((sum) => sum !== 0));
}
