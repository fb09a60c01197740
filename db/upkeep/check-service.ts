import { and, asc, eq, gt } from 'drizzle-orm';
import { changedParts, nameOfPart, type ServicePart, summedParts } from '@/lib/service/service-parts';
import { clinic, serviceCount, servicePart, workState } from '../schema/schema';
import { partsOf } from '../service/patient-parts';
import { sumsIn } from '../service/renew-parts';
import type { Database } from '../sql/database';
import { readEach } from '../sql/read-each';
import type { Finding } from './check-schema';

const PAGE = 100;
/** How often what differs is looked at again: something may have been written while this looked. */
const LOOKS = 3;
/** Differences that are said one by one. */
const MOST_SAID = 20;

/** Compares the stored counts of the service with the record: each patient’s part with their cases counted anew, and the counts of each clinic with the parts added up. */
export async function checkService(database: Database): Promise<Finding> {
  const clinics = await database.select({ id: clinic.id, name: clinic.name }).from(clinic).orderBy(asc(clinic.id));
  const problems: string[] = [];
  let [patients, counts] = [0, 0];
  for (const { id: clinicId, name } of clinics) {
    let checked = await checkClinic(database, clinicId);
    for (let look = 1; look < LOOKS && checked.problems.length > 0; look++) checked = await checkClinic(database, clinicId);
    patients += checked.patients;
    counts += checked.counts;
    problems.push(...checked.problems.map((problem) => `${name}: ${problem}`));
  }
  const more = problems.length - MOST_SAID;
  return {
    looked: `${counts} counts of the service were compared with the parts of ${patients} patients, and these with the record.`,
    problems: more > 0 ? [...problems.slice(0, MOST_SAID), `So do ${more} more.`] : problems,
  };
}

async function checkClinic(database: Database, clinicId: string) {
  const problems: string[] = [];
  let parts: readonly ServicePart[] = [];
  let patients = 0;
  for (let after = ''; ; ) {
    const page = await database
      .select({ patientId: servicePart.patientId, parts: servicePart.parts, counted: workState.counted })
      .from(servicePart)
      .leftJoin(workState, eq(workState.patientId, servicePart.patientId))
      .where(and(eq(servicePart.clinicId, clinicId), gt(servicePart.patientId, after)))
      .orderBy(asc(servicePart.patientId))
      .limit(PAGE);
    const counted = page.filter((row) => row.counted).map(({ patientId }) => patientId);
    const { read, failed } = await readEach(counted, async (some) => [...(await partsOf(database, { clinicId }, some))]);
    const anew = new Map(read);
    problems.push(...failed.map((id) => `the cases of the patient ${id} cannot be read.`));
    for (const { patientId, parts: stored } of page) {
      const [differs] = changedParts(stored, anew.get(patientId) ?? stored);
      if (differs) problems.push(`the stored part of the patient ${patientId} differs from the record in “${nameOfPart(differs)}”.`);
    }
    parts = summedParts([...parts, ...page.flatMap((row) => row.parts)]);
    patients += page.length;
    after = page.at(-1)?.patientId ?? '';
    if (page.length < PAGE) break;
  }
  const rows = await database.select().from(serviceCount).where(eq(serviceCount.clinicId, clinicId));
  const stored = rows.map(({ figure, at, of, ...row }): ServicePart => ({ figure, at, of, sums: sumsIn(row) }));
  const differing = changedParts(stored, parts);
  problems.push(...differing.map((one) => `the count “${nameOfPart(one)}” is not what its patients add up to.`));
  return { problems, patients, counts: rows.length };
}
