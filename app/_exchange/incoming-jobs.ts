import type { Upload } from '@/db/exchange/imports';
import { type FaultGroup, faultGroups, faultTable } from '@/lib/exchange/fault-report';
import { type ImportDoubt, importDoubts } from '@/lib/exchange/import-doubts';
import type { Mapping } from '@/lib/exchange/spreadsheet/mapping';
import type { Policy } from '@/lib/limits/policy';
import type { PatientFile } from '@/lib/record/patient-file';
import type { CalendarDay } from '@/lib/units/calendar-day';
import { mappingFrom } from './mapping-from-form';
import { type IncomingRead, readIncoming } from './read-incoming';
import { type Taken, takenFrom } from './taken-from';

/** Questions shown at most; the rest is counted. */
export const MOST_DOUBTS = 200;
/** Kinds of bad cells that are shown, each by its first cell; all of them are in the report. */
const KINDS_SHOWN = 20;
/** Rows of a spreadsheet that are shown: its headings and the first five. */
const ROWS_SHOWN = 6;
/** Patients handed over at once: so many are taken over between two other requests. */
const SLICE = 20;

/** A file that was kept to be read, what was said of it so far, and the clinic's day. */
export type Incoming = { readonly upload: Upload; readonly mapping: Mapping | null; readonly today: CalendarDay };

/** What is done with a file beside the server's own thread, and what comes back: `patients` come in slices. */
export type IncomingJobs = {
  readonly take: {
    readonly given: { readonly fileName: string; readonly bytes: Uint8Array; readonly sheet: string };
    readonly made: Taken;
  };
  readonly look: { readonly given: Incoming & { readonly policy: Policy }; readonly made: IncomingLook };
  readonly map: { readonly given: Incoming & { readonly boxes: Readonly<Record<string, string>> }; readonly made: Mapping | undefined };
  readonly report: { readonly given: Incoming; readonly made: string };
  readonly patients: { readonly given: Incoming; readonly made: readonly PatientFile[] };
};

/** A file as its page shows it: counts, the first of what is wrong, and no patient's figures. */
export type IncomingLook = Omit<IncomingRead, 'patients' | 'faults'> & {
  readonly patients: number;
  readonly visits: number;
  readonly girths: number;
  readonly faults: { readonly cells: number; readonly kinds: number; readonly shown: readonly FaultGroup[] };
  /** Questions that the sheet would have asked, the first `MOST_DOUBTS` of them. */
  readonly doubts: readonly ImportDoubt[];
};

type Makers = { readonly [Job in keyof IncomingJobs]: (given: IncomingJobs[Job]['given']) => AsyncIterable<IncomingJobs[Job]['made']> };

/** How each is done. One that comes whole is a list of one. */
export const INCOMING_JOBS: Makers = {
  async *take({ fileName, bytes, sheet }) {
    yield await takenFrom(fileName, bytes, sheet);
  },
  async *look({ policy, ...incoming }) {
    yield lookedAt(read(incoming), policy);
  },
  async *map({ boxes, ...incoming }) {
    const { sheet } = read(incoming);
    yield sheet && mappingFrom(boxes, sheet);
  },
  async *report(incoming) {
    yield faultTable(read(incoming).faults);
  },
  async *patients(incoming) {
    const { patients } = read(incoming);
    for (let from = 0; from < patients.length; from += SLICE) yield patients.slice(from, from + SLICE);
  },
};

function read({ upload, mapping, today }: Incoming): IncomingRead {
  return readIncoming(upload, mapping, today);
}

function lookedAt({ patients, faults, sheet, ...rest }: IncomingRead, policy: Policy): IncomingLook {
  const kinds = faultGroups(faults);
  const visits = patients.flatMap((one) => one.visits);
  const rungs = visits.flatMap(({ ladders }) => ladders.flatMap((ladder) => ladder.rungs));
  return {
    ...rest,
    ...(sheet && { sheet: { ...sheet, table: { delimiter: sheet.table.delimiter, rows: sheet.table.rows.slice(0, ROWS_SHOWN) } } }),
    patients: patients.length,
    visits: visits.length,
    girths: rungs.filter(({ girth }) => girth).length,
    faults: { cells: faults.length, kinds: kinds.length, shown: kinds.slice(0, KINDS_SHOWN) },
    doubts: firstDoubts(patients, policy),
  };
}

/** The questions of a file's figures, no further than can be shown. */
function firstDoubts(patients: readonly PatientFile[], policy: Policy): readonly ImportDoubt[] {
  const found: ImportDoubt[] = [];
  for (const file of patients) {
    if (found.length >= MOST_DOUBTS) break;
    found.push(...importDoubts(file, policy));
  }
  return found.slice(0, MOST_DOUBTS);
}
