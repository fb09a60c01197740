import { readFileSync } from 'node:fs';
import { todayIn } from '@/app/_auth/today';
import { readArguments } from '@/app/_commands/read-arguments';
import { recordErrorScale } from '@/lib/analysis/record-error-scale';
import type { ErrorScale } from '@/lib/course-model/error-scale';
import { type CsvFault, CsvRefusal } from '@/lib/exchange/csv-table';
import { phaseRows } from '@/lib/exchange/read-phases-csv';
import { pieceRows } from '@/lib/exchange/read-pieces-csv';
import { DEFAULT_POLICY, type Policy, policySchema, policyWith, RETIRED_LIMITS } from '@/lib/limits/policy';
import { type CalendarDay, readDay } from '@/lib/units/calendar-day';
import { firstFault, type GivenRecords, recordsOneByOne } from './analyse-records';
import { inputFile } from './input-file';
import { NotText, openLadders } from './ladders-by-patient';
import { writeDocument } from './write-document';

const USAGE = `Use: npm run -s analyse -- ladders.csv [--garments pieces.csv] [--phases phases.csv] [--today YYYY-MM-DD] [--policy policy.json] [--scale learn|NUMBER]
  One of the files may be - for standard input. Ends with 0 when the document was printed, with 2 when nothing was, and says why on standard error.`;

/**
 * Prints one JSON document for a ladders file of any size; a fault goes to standard error with exit code 2, and nothing else is printed.
 *
 * The file is gone through a patient at a time: once to find its faults, to learn the scale of error (unless it is given), and to
 * analyse. Whoever stops reading (`| head`) ends it quietly.
 */
function main(): void {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
    process.exit(0);
  });
  const { today, policy, scale, ...files } = given();
  const records = givenRecords(files);
  const fault = firstFault(records, today);
  if (fault) stop(faultLine(nameOf(files[fault.of] ?? ''), fault.fault));
  const all = { [Symbol.iterator]: () => recordsOneByOne(records, today) };
  writeDocument(all, policy, today, scale ?? recordErrorScale(all, policy), (text) => process.stdout.write(text));
  records.ladders.close();
}

/** The files as they were given. */
type GivenFiles = { readonly ladders: string; readonly pieces: string | undefined; readonly phases: string | undefined };

type Given = GivenFiles & {
  readonly today: CalendarDay;
  readonly policy: Policy;
  /** Undefined where it is to be learnt. */
  readonly scale: ErrorScale | undefined;
};

function given(): Given {
  const text = { type: 'string' } as const;
  const options = { garments: text, phases: text, today: text, policy: text, scale: text };
  const { values, positionals } = readArguments(USAGE, options, { names: 1, wrong: 2 });
  const [ladders] = positionals;
  if (!ladders) return stop(USAGE);
  const today = values.today === undefined ? todayIn(Intl.DateTimeFormat().resolvedOptions().timeZone) : dayFrom(values.today);
  const policy = values.policy === undefined ? DEFAULT_POLICY : policyFrom(values.policy);
  return { ladders, pieces: values.garments, phases: values.phases, today, policy, scale: scaleFrom(values.scale ?? 'learn') };
}

function givenRecords({ ladders, pieces, phases }: GivenFiles): GivenRecords {
  const file = inputFile(ladders);
  if (!file) return stop(`${ladders}: cannot be read.`);
  const opened = orRefused(ladders, () => openLadders(file.path));
  const rowsOf = (name: string | undefined, rows: (text: string) => GivenRecords['pieces']) =>
    name === undefined ? [] : orRefused(name, () => rows(textOf(name)));
  return { ladders: opened, pieces: rowsOf(pieces, pieceRows), phases: rowsOf(phases, phaseRows) };
}

/** What `read` gives; a file that is not what it should be ends the command with its fault. */
function orRefused<T>(given: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    if (error instanceof NotText) return stop(notText(given));
    if (error instanceof CsvRefusal) return stop(faultLine(nameOf(given), error.fault));
    return stop(`${given}: cannot be read.`);
  }
}

function dayFrom(text: string): CalendarDay {
  const reading = readDay(text);
  return reading.kind === 'read' ? reading.value : stop(`--today: ${reading.reason}`);
}

/** `learn`, or a positive number by which every variance of error is multiplied. */
function scaleFrom(text: string): ErrorScale | undefined {
  if (text === 'learn') return undefined;
  const variance = /^\d{1,3}(\.\d{1,6})?$/.test(text) ? Number(text) : 0;
  return variance > 0 ? { variance, n: 0 } : stop(`--scale: write learn, or a number above 0 such as 1 or 1.6, not ${text}.`);
}

function policyFrom(file: string): Policy {
  let json: unknown;
  try {
    json = JSON.parse(textOf(file));
  } catch {
    return stop(`${file}: this is not JSON.`);
  }
  for (const [name, instead] of Object.entries(RETIRED_LIMITS)) {
    if (!json || typeof json !== 'object' || !(name in json)) continue;
    delete (json as Record<string, unknown>)[name];
    process.stderr.write(`${file}: ${name} no longer counts; ${instead} took its place.\n`);
  }
  const checked = policySchema.safeParse(json);
  if (!checked.success) {
    const first = checked.error.issues[0];
    return stop(`${file}: ${first?.path.join('.') || 'policy'}: ${first?.message ?? 'cannot be read'}`);
  }
  return policyWith(checked.data);
}

function textOf(given: string): string {
  const file = inputFile(given);
  if (!file) return stop(`${given}: cannot be read.`);
  let bytes: Buffer;
  try {
    bytes = readFileSync(file.path);
  } catch {
    return stop(`${given}: cannot be read.`);
  }
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return stop(notText(given));
  }
}

function notText(given: string): string {
  return `${nameOf(given)}: this is not UTF-8 text. Save it as CSV UTF-8.`;
}

function nameOf(given: string): string {
  return given === '-' ? 'standard input' : given;
}

function faultLine(file: string, fault: CsvFault): string {
  return `${file}: line ${fault.line}, column ${fault.column}: ${fault.reason}`;
}

function stop(message: string): never {
  process.stderr.write(`${message}\n`);
  process.exit(2);
}

main();
