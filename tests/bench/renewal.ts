import { notInArray } from 'drizzle-orm';
import { getDatabase } from '@/db/client';
import { recordsOf } from '@/db/patients/records';
import { workState } from '@/db/schema/schema';
import { refreshStale } from '@/db/worklist/refresh-work';
import { addDays } from '@/lib/units/calendar-day';
import { AIMS } from './aims';
import type { Bare } from './bare-statements';
import type { FilledClinic } from './filled-clinic';
import { line, seconds } from './timed';

/** Patients read at a time, as the renewal reads them. */
const AT_ONCE = 20;

/**
 * The clinic-wide renewal of so many patients, against reading and parsing the same patients' rows: the first of all, in which every answer of
 * the newest visit is given and what came of it worked out, and the one of the next morning, when nothing was written since.
 *
 * It claims, reads, analyses, writes lines, counts and dates in a transaction of twenty patients; the floor reads visits, ladders and pieces only.
 */
export async function benchRenewal({ lead, today, patientIds }: FilledClinic, bare: Bare, most: number): Promise<void> {
  const some = patientIds.slice(0, most);
  await leaveOthers(some);
  let renewed = 0;
  const renewal = (day: number) =>
    seconds(async () => {
      renewed = await refreshStale(lead, addDays(today, day), { most });
    });
  const first = await renewal(1);
  const next = await renewal(2);
  if (renewed !== some.length) throw new Error(`${renewed} of ${some.length} patients were renewed`);
  const inTurns = async (work: (ids: readonly string[]) => Promise<unknown>) => {
    for (let from = 0; from < some.length; from += AT_ONCE) await work(some.slice(from, from + AT_ONCE));
  };
  const floor = await seconds(() => inTurns((ids) => rowsOf(bare, ids)));
  const size = `${renewed} of ${patientIds.length} patients`;
  line('First renewal of the worklist', size, first, 'reading and parsing their rows', floor, AIMS.renewal);
  line('Renewal on the next morning', size, next, 'reading and parsing their rows', floor, AIMS.renewal);
  const put = await seconds(() => inTurns((ids) => recordsOf(lead, ids)));
  console.log(`  of which putting the records together, in processor time: ${(put.busy / floor.busy).toFixed(2)} times`);
}

/** As if another process were at all other patients. */
async function leaveOthers(some: readonly string[]): Promise<void> {
  const database = await getDatabase();
  const claimedUntil = new Date(Date.now() + 3_600_000);
  await database
    .update(workState)
    .set({ claimedUntil })
    .where(notInArray(workState.patientId, [...some]));
}

async function rowsOf(bare: Bare, ids: readonly string[]): Promise<void> {
  const list = ids.map((_, at) => `$${at + 1}`).join(', ');
  const from = `from visit v join visit_revision r on r.visit_id = v.id and r.number = v.revision`;
  const asked = [
    `select r.* ${from} where v.patient_id in (${list})`,
    `select l.* ${from} join ladder l on l.visit_revision_id = r.id where v.patient_id in (${list})`,
    `select r.* from piece p join piece_revision r on r.piece_id = p.id and r.number = p.revision where p.patient_id in (${list})`,
  ];
  for (const text of asked) {
    for (const row of await bare.rows(text, ids)) {
      for (const value of Object.values(row)) if (typeof value === 'string' && /^[[{]/.test(value)) JSON.parse(value);
    }
  }
}
