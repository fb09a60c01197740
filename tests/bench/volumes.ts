import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import { limbChange } from '@/lib/trend/limb-change';
import { limbSeries, tapeErrorOf } from '@/lib/trend/limb-series';
import { limbVolume } from '@/lib/volume/limb-volume';
import { madeUpRows, recordReader } from './made-up-rows';
import { line, timed } from './timed';

/** Different ladders on file: 500 patients, two visits, both legs; read again and again. */
const PATIENTS = 500;
const LADDERS_EACH = 4;

/** Volume of every ladder, and the change of every pair of one limb, against only reading and parsing the same rows. */
export function benchVolumes(ladders: number): void {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-bench-'));
  const database = madeUpRows(path.join(folder, 'rows.db'), PATIENTS, 2);
  const recordOf = recordReader(database);
  const tape = tapeErrorOf(DEFAULT_POLICY);
  let litres = 0;
  const work = (compare: boolean) => () => {
    for (let index = 0; index < ladders / LADDERS_EACH; index++) {
      const record = recordOf((index % PATIENTS) + 1);
      if (!compare) continue;
      for (const series of limbSeries(record, DEFAULT_POLICY)) {
        for (const visit of series.visits) {
          const volume = limbVolume(visit.placed.line, tape, tape.tensionSameMeasurer);
          if (!isNoAnswer(volume)) litres += volume.volumeMl / 1000;
        }
        const [earlier, later] = series.visits;
        const change = earlier && later && limbChange(earlier, later, series.limb, DEFAULT_POLICY);
        if (change && !isNoAnswer(change)) litres += change.measured.volume.ratio;
      }
    }
  };
  work(true)();
  const floor = timed(work(false));
  const whole = timed(work(true));
  if (!(litres > 0)) throw new Error('no volume came out');
  line('Volumes and comparisons', `${ladders} ladders of 20 rungs`, whole, 'reading and parsing the same rows', floor);
  database.close();
  fs.rmSync(folder, { recursive: true });
}
