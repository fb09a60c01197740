import fs from 'node:fs';
import { say } from '@/app/_commands/run-command';
import { counted } from '@/app/_exchange/counted';
import { bringInNext, keepUpload, lineUpMore, openLine } from '@/db/exchange/imports';
import type { Therapist } from '@/db/therapist';
import { type CsvFault, CsvRefusal } from '@/lib/exchange/csv-table';
import { LADDER_COLUMNS } from '@/lib/exchange/ladder-cells';
import { readLadderRows } from '@/lib/exchange/read-ladders-csv';
import { patientFileOf } from '@/lib/exchange/spreadsheet/read-spreadsheet';
import type { PatientFile } from '@/lib/record/patient-file';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { type LaddersByPatient, NotText, openLadders } from './ladders-by-patient';

/** Bytes in which the header of a ladders file must stand. */
const HEAD = 4096;

/** A ladders file that is read a patient at a time; undefined for any other file, which is read whole. */
export function laddersIn(file: string): LaddersByPatient | undefined {
  const handle = fs.openSync(file, 'r');
  const head = Buffer.alloc(HEAD);
  fs.readSync(handle, head, 0, HEAD, 0);
  fs.closeSync(handle);
  const [first = ''] = head.toString('utf8').split(/[\r\n]/, 1);
  const names = first.replace(/^\ufeff/, '').split(',');
  if (!LADDER_COLUMNS.every((column) => names.includes(column))) return undefined;
  try {
    return openLadders(file);
  } catch (error) {
    if (error instanceof NotText || error instanceof CsvRefusal) return undefined;
    throw error;
  }
}

/** What the first pass over the patients of a file came to; faults are those shown, `faulty` how many there are. */
export type LookedThrough = {
  readonly patients: number;
  readonly visits: number;
  readonly faults: readonly CsvFault[];
  readonly faulty: number;
  readonly doubts: number;
};

/** Goes through the patients of a file one by one and counts; nothing is kept but the first faults. */
export function lookThrough(
  ladders: LaddersByPatient,
  today: CalendarDay,
  most: number,
  doubtsOf: (file: PatientFile) => number,
): LookedThrough {
  const found = { patients: 0, visits: 0, faulty: 0, doubts: 0 };
  let faults: CsvFault[] = [];
  for (const { file, bad } of filesIn(ladders, today)) {
    found.faulty += bad.length;
    faults = [...faults, ...bad].sort((one, other) => one.line - other.line).slice(0, most);
    if (!file) continue;
    found.patients += 1;
    found.visits += file.visits.length;
    found.doubts += doubtsOf(file);
  }
  return { ...found, faults };
}

/** Each patient of a file with all cells good as a file, or the bad cells of one that is left out. */
function* filesIn(ladders: LaddersByPatient, today: CalendarDay): Generator<{ file?: PatientFile; bad: readonly CsvFault[] }> {
  for (const reference of ladders.references) {
    const { records, faults } = readLadderRows(ladders.rowsOf(reference), today, 'kept');
    const [record] = records;
    yield record ? { file: patientFileOf(record, 'other'), bad: faults } : { bad: faults };
  }
}

/** Brings the good patients of a file in, `atOnce` in memory and in line at a time; gives the id of the import. */
export async function bringInOneByOne(
  lead: Therapist,
  fileName: string,
  ladders: LaddersByPatient,
  { patients, today, atOnce }: { readonly patients: number; readonly today: CalendarDay; readonly atOnce: number },
): Promise<string> {
  const id = await keepUpload(lead, { fileName, form: 'spreadsheet', text: '' });
  await openLine(lead, id, patients);
  let waiting: PatientFile[] = [];
  let taken = 0;
  const take = async () => {
    if (waiting.length === 0) return;
    await lineUpMore(lead, id, waiting, taken);
    await bringInNext(lead, id, waiting.length);
    taken += waiting.length;
    waiting = [];
    say(`${taken} of ${counted(patients, 'patient')}`);
  };
  for (const { file } of filesIn(ladders, today)) {
    if (file) waiting.push(file);
    if (waiting.length >= atOnce) await take();
  }
  await take();
  await bringInNext(lead, id, 1);
  return id;
}
