import { and, asc, desc, eq, gt, gte, lt, type SQLWrapper, sql } from 'drizzle-orm';
import type { CareCounts } from '@/lib/service/care-figures';
import { daysOfPeriod, type ServicePeriod } from '@/lib/service/service-period';
import { REVOKED } from '../patients/revoked';
import { patient, serviceCase } from '../schema/schema';
import type { Database } from '../sql/database';
import type { Therapist } from '../therapist';

const N = sql`count(*)`.mapWith(Number);
const by = (...columns: readonly SQLWrapper[]) => columns.map((column) => sql`${column}`);
const OF_PATIENT = and(eq(patient.id, serviceCase.patientId), gt(patient.revision, REVOKED));

function isOfCases(therapist: Therapist, period: ServicePeriod, kind: 'without' | 'excess') {
  const { from, before } = daysOfPeriod(period);
  const { clinicId, day } = serviceCase;
  return and(eq(clinicId, therapist.clinicId), eq(serviceCase.kind, kind), lt(day, before), from ? gte(day, from) : undefined);
}

/** Days without a working piece, summed over patients, and excess by phase, of a period. */
export async function careCounts(database: Database, therapist: Therapist, period: ServicePeriod): Promise<CareCounts> {
  const { patientId, phase, lost, kept } = serviceCase;
  const each = database
    .select({ whole: sql<number>`sum(${serviceCase.whole})`.as('whole'), some: sql<number>`sum(${serviceCase.some})`.as('some') })
    .from(serviceCase)
    .innerJoin(patient, OF_PATIENT)
    .where(isOfCases(therapist, period, 'without'))
    .groupBy(patientId)
    .as('each');
  const sum = (of: ReturnType<typeof sql>) => sql`coalesce(sum(${of}), 0)`.mapWith(Number);
  const [without] = await database
    .select({
      n: N,
      withAny: sum(sql`case when ${each.some} > 0 then 1 else 0 end`),
      whole: sum(sql`${each.whole}`),
      some: sum(sql`${each.some}`),
      wholeSquare: sum(sql`${each.whole} * ${each.whole}`),
      someSquare: sum(sql`${each.some} * ${each.some}`),
      product: sum(sql`${each.whole} * ${each.some}`),
    })
    .from(each);
  const excess = await database
    .select({ phase, lost, kept, n: N })
    .from(serviceCase)
    .innerJoin(patient, OF_PATIENT)
    .where(isOfCases(therapist, period, 'excess'))
    .groupBy(...by(phase, lost, kept))
    .orderBy(asc(phase), asc(lost));
  return {
    without: without ?? { n: 0, withAny: 0, whole: 0, some: 0, wholeSquare: 0, someSquare: 0, product: 0 },
    excess: excess.flatMap((row) => (row.phase === null || row.lost === null ? [] : [{ ...row, phase: row.phase, lost: row.lost }])),
  };
}

/** Limbs and months with days without a working piece, or limbs through a phase, the newest first, at most so many. */
export async function careRows(
  database: Database,
  therapist: Therapist,
  kind: 'without' | 'excess',
  of: string | undefined,
  period: ServicePeriod,
  most: number,
) {
  const { patientId, day, limb, side, some, whole, phase, lost, kept } = serviceCase;
  return database
    .select({ patientId, day, limb, side, some, whole, phase, lost, kept, total: sql`count(*) over ()`.mapWith(Number) })
    .from(serviceCase)
    .innerJoin(patient, OF_PATIENT)
    .where(and(isOfCases(therapist, period, kind), kind === 'without' ? gt(some, 0) : of === undefined ? undefined : eq(sql`${phase}`, of)))
    .orderBy(desc(day), serviceCase.id)
    .limit(most);
}
