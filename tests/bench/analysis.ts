import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { analysePatient } from '@/lib/analysis/analyse-patient';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { raisePrompts } from '@/lib/prompts/decide-prompts';
import { addDays } from '@/lib/units/calendar-day';
import { madeUpRows, recordReader } from './made-up-rows';
import { line, timed } from './timed';

/** Different patients on file; a larger clinic reads them again and again, so that the file stays small and its pages warm: the floor is low. */
const DIFFERENT = 200;

/** Full analysis of patients with visits of two limbs and twenty rungs, against only reading and parsing the same rows. */
export function benchAnalysis(patients: number, visits: number): { perVisit: number } {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-bench-'));
  const database = madeUpRows(path.join(folder, 'rows.db'), Math.min(DIFFERENT, patients), visits);
  const recordOf = recordReader(database);
  const idOf = (index: number) => (index % Math.min(DIFFERENT, patients)) + 1;
  let checked = 0;
  const work = (analyse: boolean) => () => {
    for (let index = 0; index < patients; index++) {
      const record = recordOf(idOf(index));
      if (!analyse) {
        checked += record.visits.length;
        continue;
      }
      const analysis = analysePatient(record, DEFAULT_POLICY, addDays(record.visits.at(-1)?.day ?? record.born, 7));
      checked += raisePrompts(analysis).length;
    }
  };
  work(true)();
  const floor = timed(work(false));
  const whole = timed(work(true));
  if (checked === 0) throw new Error('nothing was read');
  line(
    'Full analysis with prompts',
    `${patients} patients × ${visits} visits × 2 limbs × 20 rungs`,
    whole,
    'reading and parsing the same rows',
    floor,
  );
  database.close();
  fs.rmSync(folder, { recursive: true });
  return { perVisit: whole.busy / patients / visits };
}
