import { recordsOf } from '@/db/patients/records';
import { refreshStale } from '@/db/worklist/refresh-work';
import { addDays } from '@/lib/units/calendar-day';
import { AIMS } from './aims';
import type { Bare } from './bare-statements';
import type { FilledClinic } from './filled-clinic';
import { line, seconds } from './timed';

/** Patients read at a time, as the renewal reads them. */
const AT_ONCE = 20;

/**
 * The clinic-wide renewal on the next morning, for so many of its patients, against reading and parsing the same patients' rows.
 *
 * It claims, reads, analyses, writes lines, counts and dates in a transaction a patient; the floor reads visits, ladders and pieces only.
 */
export async function benchRenewal({ lead, today, patientIds }: FilledClinic, bare: Bare, most: number): Promise<void> {
  let renewed = 0;
  const whole = await seconds(async () => {
    renewed = await refreshStale(lead, addDays(today, 1), { most });
  });
  const read = patientIds.slice(0, renewed);
  const floor = await seconds(async () => {
    for (let from = 0; from < read.length; from += AT_ONCE) await rowsOf(bare, read.slice(from, from + AT_ONCE));
  });
  line(
    'Renewal of the worklist',
    `${renewed} of ${patientIds.length} patients`,
    whole,
    'reading and parsing their rows',
    floor,
    AIMS.renewal,
  );
  const put = await seconds(async () => {
    for (let from = 0; from < read.length; from += AT_ONCE) await recordsOf(lead, read.slice(from, from + AT_ONCE));
  });
  console.log(`  of which putting the records together: ${(put / floor).toFixed(2)} times`);
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
