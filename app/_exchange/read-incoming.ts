import type { Bundle, FhirResource } from 'fhir/r4';
import type { Upload } from '@/db/exchange/imports';
import type { CsvFault } from '@/lib/exchange/csv-table';
import { isOurBundle, readOurBundle } from '@/lib/exchange/fhir/read-bundle';
import { fileOfForeign, readForeignBundle } from '@/lib/exchange/fhir/read-foreign-bundle';
import { readSet } from '@/lib/exchange/set/read-set';
import { guessMapping } from '@/lib/exchange/spreadsheet/guess-mapping';
import { columnsLeftOut } from '@/lib/exchange/spreadsheet/left-out';
import type { Mapping } from '@/lib/exchange/spreadsheet/mapping';
import { readSpreadsheet, unanswered } from '@/lib/exchange/spreadsheet/read-spreadsheet';
import { type TextTable, textTable } from '@/lib/exchange/spreadsheet/text-table';
import type { PatientFile } from '@/lib/record/patient-file';
import { refusedDay } from '@/lib/record/visit-days';
import type { CalendarDay } from '@/lib/units/calendar-day';

/** A file that was brought in, as far as it can be read: its patients, what is wrong, and for a spreadsheet how it was taken. */
export type IncomingRead = {
  readonly patients: readonly PatientFile[];
  readonly faults: readonly CsvFault[];
  readonly sheet?: { readonly table: TextTable; readonly mapping: Mapping; readonly missing: readonly (keyof Mapping)[] };
  /** Columns of a spreadsheet that were left out although something stands in them. */
  readonly leftOut?: readonly string[];
};

/** Reads a file in the form it came in. A spreadsheet is read only once nothing about it is left to be said. */
export function readIncoming({ form, text }: Upload, said: Mapping | null, today: CalendarDay): IncomingRead {
  if (form === 'set') return possibleDays(readPackedSet(text), today);
  if (form === 'bundle') return possibleDays(readBundle(text), today);
  const cut = textTable(text);
  if (cut.kind === 'refused') return refusal(cut.reason);
  const mapping = said ?? guessMapping(cut.table);
  const missing = unanswered(mapping, cut.table);
  const read = missing.length > 0 ? { patients: [], faults: [] } : readSpreadsheet(cut.table, mapping, today);
  return { ...read, sheet: { table: cut.table, mapping, missing }, leftOut: columnsLeftOut(cut.table, mapping) };
}

/** Leaves out, by name, whoever has a visit on a day that cannot be. */
function possibleDays(read: IncomingRead, today: CalendarDay): IncomingRead {
  const faults = read.patients.flatMap(({ details: { reference, born }, visits }) =>
    visits.flatMap(({ day }) => {
      const reason = refusedDay(day, { born, today });
      return reason ? [{ reference, fault: { line: 1, column: 'day', reason: `${reference}: ${reason}` } }] : [];
    }),
  );
  const out = new Set(faults.map(({ reference }) => reference));
  const patients = read.patients.filter(({ details }) => !out.has(details.reference));
  return { ...read, patients, faults: [...read.faults, ...faults.map(({ fault }) => fault)] };
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
    return read.kind === 'read' ? { patients: read.files, faults: read.passedOver.map(passedOver) } : refusal(read.reason);
  }
  const foreign = readForeignBundle(bundle);
  if (foreign.patients.length === 0) return refusal('The bundle has no patient.');
  const files = foreign.patients.map((patient) => fileOfForeign(patient, 'other'));
  return {
    patients: files.flatMap((file) => ('noAnswer' in file ? [] : [file])),
    faults: [...files.flatMap((file) => ('noAnswer' in file ? [passedOver(file.noAnswer)] : [])), ...foreign.passedOver.map(passedOver)],
  };
}

function passedOver(reason: string): CsvFault {
  return { line: 1, column: 'passed over', reason };
}

/** A bundle; or a single resource, or resources line by line, as one. */
function bundleIn(text: string): Bundle<FhirResource> | undefined {
  const resources = resourcesIn(text);
  const [first] = resources;
  if (!first) return undefined;
  if (resources.length === 1 && first.resourceType === 'Bundle') return first as Bundle<FhirResource>;
  return { resourceType: 'Bundle', type: 'collection', entry: resources.map((resource) => ({ resource })) };
}

function resourcesIn(text: string): readonly FhirResource[] {
  const whole = resourceIn(text);
  if (whole) return [whole];
  const lines = text.split('\n').filter((line) => line.trim() !== '');
  const read = lines.map(resourceIn);
  return read.every((one) => one !== undefined) ? read : [];
}

function resourceIn(text: string): FhirResource | undefined {
  try {
    const value = JSON.parse(text) as FhirResource;
    return typeof value?.resourceType === 'string' ? value : undefined;
  } catch {
    return undefined;
  }
}

function refusal(reason: string): IncomingRead {
  return { patients: [], faults: [{ line: 1, column: '', reason }] };
}
