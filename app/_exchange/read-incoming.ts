import type { Bundle, FhirResource } from 'fhir/r4';
import type { Upload } from '@/db/imports';
import type { CsvFault } from '@/lib/exchange/csv-table';
import { isOurBundle, readOurBundle } from '@/lib/exchange/fhir/read-bundle';
import { fileOfForeign, readForeignBundle } from '@/lib/exchange/fhir/read-foreign-bundle';
import { readSet } from '@/lib/exchange/set/read-set';
import { guessMapping } from '@/lib/exchange/spreadsheet/guess-mapping';
import type { Mapping } from '@/lib/exchange/spreadsheet/mapping';
import { readSpreadsheet, unanswered } from '@/lib/exchange/spreadsheet/read-spreadsheet';
import { type TextTable, textTable } from '@/lib/exchange/spreadsheet/text-table';
import type { PatientFile } from '@/lib/record/patient-file';

/** A file that was brought in, as far as it can be read: its patients, what is wrong, and for a spreadsheet how it was taken. */
export type IncomingRead = {
  readonly patients: readonly PatientFile[];
  readonly faults: readonly CsvFault[];
  readonly sheet?: { readonly table: TextTable; readonly mapping: Mapping; readonly missing: readonly (keyof Mapping)[] };
};

/** Reads a file in the form it came in. A spreadsheet is read only once nothing about it is left to be said. */
export function readIncoming({ form, text }: Upload, said: Mapping | null): IncomingRead {
  if (form === 'set') return readPackedSet(text);
  if (form === 'bundle') return readBundle(text);
  const cut = textTable(text);
  if (cut.kind === 'refused') return refusal(cut.reason);
  const mapping = said ?? guessMapping(cut.table);
  const missing = unanswered(mapping, cut.table);
  const read = missing.length > 0 ? { patients: [], faults: [] } : readSpreadsheet(cut.table, mapping);
  return { ...read, sheet: { table: cut.table, mapping, missing } };
}

function readPackedSet(text: string): IncomingRead {
  const read = readSet(new Map(Object.entries(JSON.parse(text) as Record<string, string>)));
  return read.kind === 'read' ? { patients: read.patients, faults: [] } : { patients: [], faults: [read.fault] };
}

function readBundle(text: string): IncomingRead {
  const bundle = bundleIn(text);
  if (!bundle) return refusal('This is neither a table nor a FHIR bundle.');
  if (isOurBundle(bundle)) {
    const read = readOurBundle(bundle);
    return read.kind === 'read' ? { patients: [read.file], faults: [] } : refusal(read.reason);
  }
  const foreign = readForeignBundle(bundle);
  const file = fileOfForeign(foreign, 'other');
  const passedOver = foreign.passedOver.map((reason) => ({ line: 1, column: 'passed over', reason }));
  return 'noAnswer' in file ? refusal(file.noAnswer) : { patients: [file], faults: passedOver };
}

function bundleIn(text: string): Bundle<FhirResource> | undefined {
  try {
    const value = JSON.parse(text) as Bundle<FhirResource>;
    return value.resourceType === 'Bundle' ? value : undefined;
  } catch {
    return undefined;
  }
}

function refusal(reason: string): IncomingRead {
  return { patients: [], faults: [{ line: 1, column: '', reason }] };
}
