import { findPatients } from '@/db/patients/find-patients';
import { engine } from '@/db/sql/columns';
import type { Bare } from './bare-statements';
import { openAnother } from './filled-clinic';
import { line, NOTHING, plus, type Spent, seconds } from './timed';

const SIZES = [1000, 10_000, 100_000];
const TIMES = 10;
const NAMES = ['alder', 'birch', 'cedar', 'hazel', 'rowan'];

/**
 * A search in clinics of three sizes against the walk over all names that finds the same, in bare SQL: for a reference, a name with a number, a
 * word that nobody has, and a name that every fifth patient has. Patients without visits, written past the program.
 */
export async function benchSearchSizes(bare: Bare): Promise<void> {
  for (const size of SIZES) {
    const lead = await openAnother(`Clinic of ${size}`, `of-${size}@harbour.example`);
    await fill(bare, lead.clinicId, lead.id, size);
    if (engine === 'postgres') await bare.rows('analyze');
    const last = String(Math.floor(size * 0.77)).padStart(6, '0');
    for (const words of [`b-${last}`, `alder ${Math.floor(size * 0.18) * 5}`, 'nobody', 'hazel']) {
      const { total: found } = await findPatients(lead, words);
      let [whole, walked] = [NOTHING, NOTHING];
      for (let turn = 0; turn < TIMES; turn++) {
        whole = plus(whole, await seconds(() => findPatients(lead, words)));
        walked = plus(walked, await walk(bare, lead.clinicId, words, found));
      }
      line(`Search “${words}”`, `${size} patients, ${found} found, ${TIMES} times`, whole, 'a walk over the names in bare SQL', walked);
    }
  }
}

/** What finds the same by reading every name of the clinic. */
function walk(bare: Bare, clinicId: string, words: string, found: number): Promise<Spent> {
  const holding = words.split(' ').map((word) => `and search_text like '%${word}%'`);
  const where = `clinic_id = $1 and patient.revision > 0 ${holding.join(' ')}`;
  const page = `select * from patient join patient_revision r on r.patient_id = patient.id and r.number = patient.revision`;
  return seconds(async () => {
    if (found >= 50) await bare.rows(`select count(*) from patient where ${where}`, [clinicId]);
    await bare.rows(`${page} where patient.${where} order by patient.reference_key, patient.id limit 50`, [clinicId]);
  });
}

async function fill(bare: Bare, clinicId: string, author: string, size: number): Promise<void> {
  const isFile = engine === 'sqlite';
  const counted = isFile
    ? `(with recursive c(i) as (select 1 union all select i + 1 from c where i < ${size}) select i from c)`
    : `generate_series(1, ${size}) i`;
  const id = `'${size}-' || i`;
  const reference = isFile ? `'b-' || substr('000000' || i, -6)` : `'b-' || lpad(i::text, 6, '0')`;
  const name = `'person ' || case i % 5 ${NAMES.map((one, at) => `when ${at} then '${one}'`).join(' ')} end || ' ' || i`;
  const [none, now] = isFile ? ["'[]'", '0'] : ["'[]'::jsonb", 'now()'];
  const head = `${id}, '${clinicId}', 1, ${reference}, ${reference} || ' ' || ${name}`;
  const state = `${id}, '${clinicId}', ${id}, 1, ${reference}, ${name}, '1980-03-01', 'F', 'other', ${none}, 'en', '${author}', ${now}, ${id}`;
  const columns =
    'id, clinic_id, patient_id, number, reference, name, born, sex, diagnosis_group, affected, language, author, at, submission_id';
  await bare.rows(`insert into patient (id, clinic_id, revision, reference_key, search_text) select ${head} from ${counted} returning id`);
  await bare.rows(`insert into patient_revision (${columns}) select ${state} from ${counted} returning id`);
}
