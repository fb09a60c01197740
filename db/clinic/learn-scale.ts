import { count, desc, eq, gte, max } from 'drizzle-orm';
import { type LearntScale, type LimbStrain, limbStrains, SCALE_ROUNDS, scaleWithRange } from '@/lib/analysis/record-error-scale';
import { getDatabase } from '../client';
import { recordsOf } from '../patients/records';
import { visit } from '../schema/schema';
import { letOthers } from '../sql/let-others';
import { readEach, unlessDamaged } from '../sql/read-each';
import type { Therapist } from '../therapist';
import { policyOf } from './policy';

/** Records held in memory at once, and of how many patients the scale is learnt: those seen last. */
const BATCH = 20;
const MOST_PATIENTS = 400;
const FEWEST_VISITS = 3;

/** The clinic's scale of error learnt from its own record: of the 400 patients seen last who were taped three times or more. */
export async function learnScale(therapist: Therapist): Promise<LearntScale> {
  const policy = await policyOf(therapist);
  const patients = await patientsSeenOften(therapist);
  let learnt = scaleWithRange([]);
  for (let round = 0; round < SCALE_ROUNDS; round++) {
    const strains: LimbStrain[] = [];
    for (let start = 0; start < patients.length; start += BATCH) {
      const { read } = await readEach(patients.slice(start, start + BATCH), (some) => recordsOf(therapist, some));
      for (const record of read) {
        strains.push(...(unlessDamaged(() => limbStrains(record, policy, learnt.variance)) ?? []));
        // Others are let in between two records.
        await letOthers();
      }
    }
    learnt = scaleWithRange(strains);
  }
  return learnt;
}

async function patientsSeenOften(therapist: Therapist): Promise<readonly string[]> {
  const database = await getDatabase();
  const rows = await database
    .select({ id: visit.patientId, newest: max(visit.day) })
    .from(visit)
    .where(eq(visit.clinicId, therapist.clinicId))
    .groupBy(visit.patientId)
    .having(gte(count(), FEWEST_VISITS))
    .orderBy(desc(max(visit.day)), visit.patientId)
    .limit(MOST_PATIENTS);
  return rows.map(({ id }) => id);
}
