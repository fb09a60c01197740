import { parse } from 'csv-parse/sync';
import { partsOf } from '@/app/_exchange/set-parts';
import { SET_STYLES } from '@/app/_exchange/set-style';
import { policyOf } from '@/db/clinic/policy';
import { bringInNext, keepUpload, lineUp } from '@/db/exchange/imports';
import { everyPatientFile, type OutgoingPatient } from '@/db/exchange/patient-files';
import { DICTIONARY_FILE, dataDictionary, fileNameOf } from '@/lib/exchange/set/data-dictionary';
import { readSet } from '@/lib/exchange/set/read-set';
import { setCounter } from '@/lib/exchange/set/set-tally';
import { headerLine, linesOf, SET_TABLES } from '@/lib/exchange/set/write-set';
import { type FilledClinic, openAnother } from './filled-clinic';
import { line, plus, seconds } from './timed';

const { style } = SET_STYLES.raw;

/**
 * Patients taken out of the clinic as a set of tables, against reading their records; then brought into another clinic, against parsing
 * the same tables. Patients are taken until there are so many rows of ladders (one a taped place).
 */
export async function benchExchange(clinic: FilledClinic, ladderRows: number): Promise<void> {
  const { lead, today } = clinic;
  const files = new Map<string, string>();
  const counter = setCounter();
  let patients: OutgoingPatient[] = [];
  let rows = 0;
  const reading = async () => {
    patients = [];
    rows = 0;
    for await (const one of everyPatientFile(lead)) {
      patients.push(one);
      for (const visit of one.file.visits) for (const ladder of visit.ladders) rows += ladder.rungs.length;
      if (rows >= ladderRows) return;
    }
  };
  const read = await seconds(reading);
  const partOf = partsOf(style, await policyOf(lead), today);
  const written = await seconds(async () => {
    for (const table of SET_TABLES) files.set(fileNameOf(table), headerLine(table, style));
    for (const one of patients) {
      const part = partOf(one);
      for (const table of SET_TABLES)
        files.set(fileNameOf(table), (files.get(fileNameOf(table)) ?? '') + counter.noted(table, part, linesOf(table, part, style)));
    }
  });
  files.set(DICTIONARY_FILE, JSON.stringify(dataDictionary(style, today, counter.tally())));
  const size = `${patients.length} patients, ${rows} rows of ladders`;
  line('Taking out as a set', size, plus(read, written), 'reading the same records', read);

  const floor = await seconds(async () => {
    for (const [name, text] of files) if (name.endsWith('.csv')) parse(text, { columns: true });
  });
  let took = { read: 0, taken: 0 };
  const other = await openAnother('Hill Street', `hill-${patients.length}@harbour.example`);
  const whole = await seconds(async () => {
    const found = readSet(files);
    if (found.kind !== 'read') throw new Error(`not read: ${JSON.stringify(found.fault)}`);
    took = { ...took, read: found.patients.length };
    const id = await keepUpload(other, { fileName: 'bench', form: 'set', text: JSON.stringify(Object.fromEntries(files)) });
    await lineUp(other, id, found.patients);
    for (let now = 1; now > 0; ) {
      now = await bringInNext(other, id, 200);
      took = { ...took, taken: took.taken + now };
    }
  });
  if (took.taken !== patients.length) throw new Error(`${took.taken} of ${patients.length} patients were brought in`);
  line('Bringing in a set', size, whole, 'parsing the same tables', floor);
}
