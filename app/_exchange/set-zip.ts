import { strToU8, Zip, ZipDeflate } from 'fflate';
import type { OutgoingPatient } from '@/db/exchange/patient-files';
import { DICTIONARY_FILE, dataDictionary, fileNameOf } from '@/lib/exchange/set/data-dictionary';
import { setCounter } from '@/lib/exchange/set/set-tally';
import { headerLine, linesOf, SET_TABLES, type SetStyle } from '@/lib/exchange/set/write-set';
import type { CalendarDay } from '@/lib/units/calendar-day';
import type { PartOf } from './set-parts';

/** The patients of a set, read anew at each call; one that cannot be read is named, and left out. */
export type PatientsOfSet = (unreadable: (reference: string) => void) => AsyncIterable<OutgoingPatient>;

/** The file of a set that says who is missing in it; it is there only where somebody is. */
export const NOT_READ_FILE = 'not-read.txt';

/**
 * A set as one packed file, made while it is sent: patients are read a page at a time, once for each table, and nothing is held but the
 * page at hand. Who reads slowly slows the reading of the database, not the memory of the server.
 *
 * Patients whose record cannot be read are missing in every table; a file beside the tables says who, in a research set how many.
 */
export function setZip(patients: PatientsOfSet, partOf: PartOf, style: SetStyle, today: CalendarDay): ReadableStream<Uint8Array> {
  const chunks: Uint8Array[] = [];
  const zip = new Zip((error, chunk) => {
    if (error) throw error;
    chunks.push(chunk);
  });
  const steps = written(zip, patients, partOf, style, today);
  return new ReadableStream({
    async pull(controller) {
      while (chunks.length === 0) {
        const { done } = await steps.next();
        if (done && chunks.length === 0) return controller.close();
      }
      for (const chunk of chunks.splice(0)) controller.enqueue(chunk);
    },
  });
}

async function* written(zip: Zip, patients: PatientsOfSet, partOf: PartOf, style: SetStyle, today: CalendarDay): AsyncGenerator<void> {
  const counter = setCounter();
  const missing = new Set<string>();
  for (const table of SET_TABLES) {
    const file = packed(zip, fileNameOf(table));
    file.push(strToU8(headerLine(table, style)));
    for await (const patient of patients((reference) => missing.add(reference))) {
      const part = partOf(patient);
      file.push(strToU8(counter.noted(table, part, linesOf(table, part, style))));
      yield;
    }
    file.push(new Uint8Array(), true);
    yield;
  }
  packed(zip, DICTIONARY_FILE).push(strToU8(JSON.stringify(dataDictionary(style, today, counter.tally()), null, 2)), true);
  if (missing.size > 0) packed(zip, NOT_READ_FILE).push(strToU8(`${whoIsMissing(missing, style)}\n`), true);
  zip.end();
}

function packed(zip: Zip, name: string): ZipDeflate {
  const file = new ZipDeflate(name, { level: 6 });
  zip.add(file);
  return file;
}

/** Which patients are not in an export because their records cannot be read, and what to do about it, in a sentence. */
export function whoIsMissing(references: ReadonlySet<string>, { research }: Pick<SetStyle, 'research'>): string {
  const count = references.size === 1 ? '1 patient is' : `${references.size} patients are`;
  const who = research ? '' : ` (${[...references].sort().join(', ')})`;
  return `${count} not in this export${who}: the record cannot be read. Tell whoever runs the server; npm run verify-data says more.`;
}
