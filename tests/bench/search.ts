import { findPatients } from '@/db/patients/find-patients';
import type { Bare } from './bare-statements';
import type { FilledClinic } from './filled-clinic';
import { line, NOTHING, plus, seconds } from './timed';

const TIMES = 20;

/** Ten patients by the beginning of their references, looked for through `db/patients/find-patients`, against the bare SQL that counts them and reads the first page. */
export async function benchSearch({ lead, patientIds }: FilledClinic, bare: Bare): Promise<void> {
  const wanted = 'b-00077';
  const where = `clinic_id = $1 and search_text like '%b-00077%'`;
  let whole = NOTHING;
  let floor = NOTHING;
  for (let turn = 0; turn < TIMES; turn++) {
    whole = plus(whole, await seconds(() => findPatients(lead, wanted)));
    const bareSql = await seconds(async () => {
      await bare.rows(`select count(*) from patient where ${where}`, [lead.clinicId]);
      const order = 'order by reference_key, id limit 50';
      await bare.rows(
        `select * from (select * from patient where ${where} ${order}) p join patient_revision r on r.patient_id = p.id and r.number = p.revision`,
        [lead.clinicId],
      );
    });
    floor = plus(floor, bareSql);
  }
  line('Search by part of a reference', `${patientIds.length} patients, ${TIMES} times`, whole, 'the bare SQL', floor);
}
