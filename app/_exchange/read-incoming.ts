import type { Bundle, FhirResource } from 'fhir/r4';
import type { Upload } from '@/db/exchange/imports';
import { refusedDay } from '@/lib/course/visit-days';
import type { CsvFault } from '@/lib/exchange/csv-table';
import { isOurBundle, readOurBundle } from '@/lib/exchange/fhir/read-bundle';
import { fileOfForeign, readForeignBundle } from '@/lib/exchange/fhir/read-foreign-bundle';
import { refusedText } from '@/lib/exchange/refused-text';
import { readSet, saidOfSet } from '@/lib/exchange/set/read-set';
import { saidOfCarried } from '@/lib/exchange/spreadsheet/carried-down';
import { guessMapping } from '@/lib/exchange/spreadsheet/guess-mapping';
import { columnsLeftOut } from '@/lib/exchange/spreadsheet/left-out';
import { type LostPoints, lostPoints } from '@/lib/exchange/spreadsheet/lost-points';
import type { Mapping } from '@/lib/exchange/spreadsheet/mapping';
import { readSpreadsheet, unanswered } from '@/lib/exchange/spreadsheet/read-spreadsheet';
import { type TextTable, textTable } from '@/lib/exchange/spreadsheet/text-table';
import { tidyTable } from '@/lib/exchange/spreadsheet/tidy-table';
import { isNoAnswer } from '@/lib/outcome';
import type { PatientFile } from '@/lib/record/patient-file';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { isPlainText } from '@/lib/units/plain-text';

/** A file that was brought in, as far as it can be read: its patients, what is wrong, and for a spreadsheet how it was taken. */
export type IncomingRead = {
  readonly patients: readonly PatientFile[];
  readonly faults: readonly CsvFault[];
  readonly sheet?: { readonly table: TextTable; readonly mapping: Mapping; readonly missing: readonly (keyof Mapping)[] };
  /** Columns of a spreadsheet that were left out although something stands in them. */
  readonly leftOut?: readonly string[];
  /** What was taken otherwise than it stands, or left out, by rows and cells; and figures that may have lost their point. */
  readonly said?: readonly string[];
  readonly lost?: LostPoints | undefined;
};

/** Answers that mappings kept before 2026-11-30 do not have. */
const ADDED_LATER = { lastYear: null, figures: 'as-written' } as const;

/** Reads a file in the form it came in. A spreadsheet is read only once nothing about it is left to be said. */
export function readIncoming({ form, text }: Upload, said: Mapping | null, today: CalendarDay): IncomingRead {
  if (form === 'set') return possible(readPackedSet(text), today);
  if (form === 'bundle') return possible(readBundle(text), today);
  const cut = textTable(text);
  if (cut.kind === 'refused') return refusal(cut.reason);
  const { table, above, said: tidied } = tidyTable(cut.table);
  const mapping = said ? { ...ADDED_LATER, ...said } : guessMapping(table, above);
  const missing = unanswered(mapping, table);
  const read = missing.length > 0 ? { patients: [], faults: [] } : readSpreadsheet(table, mapping, today);
  const lost = mapping.figures === 'as-written' ? lostPoints(table, mapping) : undefined;
  return {
    ...possible(read, today),
    sheet: { table, mapping, missing },
    leftOut: columnsLeftOut(table, mapping),
    said: [...tidied, ...saidOfCarried(table, mapping)],
    lost,
  };
}

/** Leaves out, by name, whoever has a visit on a day that cannot be, or a text that no form takes. */
function possible(read: IncomingRead, today: CalendarDay): IncomingRead {
  const faults = read.patients.flatMap((file) => {
    const { reference, born } = file.details;
    const named = (column: string, reason: string | undefined) =>
      reason ? [{ reference, fault: { line: 1, column, reason: `${shown(reference)}: ${reason}` } }] : [];
    return [...file.visits.flatMap(({ day }) => named('day', refusedDay(day, { born, today }))), ...named('text', refusedText(file))];
  });
  const out = new Set(faults.map(({ reference }) => reference));
  const patients = read.patients.filter(({ details }) => !out.has(details.reference));
  return { ...read, patients, faults: [...read.faults, ...faults.map(({ fault }) => fault)] };
}

/** A reference as it can be shown, whatever it holds. */
function shown(reference: string): string {
  return isPlainText(reference) ? reference.slice(0, 80) : 'a reference that is no text';
}

function readPackedSet(text: string): IncomingRead {
  const files = new Map(Object.entries(JSON.parse(text) as Record<string, string>));
  const read = readSet(files);
  return read.kind === 'read' ? { patients: read.patients, faults: [], said: saidOfSet(files) } : { patients: [], faults: [read.fault] };
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
    patients: files.flatMap((file) => (isNoAnswer(file) ? [] : [file])),
    faults: [...files.flatMap((file) => (isNoAnswer(file) ? [passedOver(file.noAnswer)] : [])), ...foreign.passedOver.map(passedOver)],
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
