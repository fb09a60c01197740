import { readFileSync } from 'node:fs';
import { todayIn } from '@/app/_auth/today';
import { readArguments } from '@/app/_commands/read-arguments';
import { SCALE_ROUNDS, scaleFromStrains } from '@/lib/analysis/record-error-scale';
import type { ErrorScale, Strain } from '@/lib/course-model/error-scale';
import { type CsvFault, CsvRefusal } from '@/lib/exchange/csv-table';
import { phaseRows } from '@/lib/exchange/read-phases-csv';
import { pieceRows } from '@/lib/exchange/read-pieces-csv';
import { DEFAULT_POLICY, type Policy, policySchema, policyWith, RETIRED_LIMITS } from '@/lib/limits/policy';
import { type CalendarDay, readDay } from '@/lib/units/calendar-day';
import { type Done, doJob, type Job } from './analyse-jobs';
import { faultToSay, firstOfBoth, type GivenRecords, rowsByPatient, strayFaults } from './analyse-records';
import { startWorkers } from './in-workers';
import { inputFile } from './input-file';
import { indexOf, laddersAt, NotText } from './ladders-by-patient';
import { writeDocument } from './write-document';

const USAGE = `Use: npm run -s analyse -- ladders.csv [--garments pieces.csv] [--phases phases.csv] [--today YYYY-MM-DD] [--policy policy.json] [--scale learn|NUMBER] [--workers N]
  One of the files may be - for standard input. With --workers 4 four processes share the work; the document is the same. A named measure that a clinic added is read by the definition in its landmark cell (README), its id alone is refused. Ends with 0 when the document was printed, with 2 when nothing was, and says why on standard error.`;

/** Patients that a job takes: enough that handing over costs little, few enough that workers end together. */
const A_JOB = 16;
/** Jobs whose patients the scale of error is learnt from, evenly through the file: 400 patients, as many as a clinic's own scale is. */
const LEARNT_JOBS = 25;
const MOST_WORKERS = 64;

/**
 * Prints one JSON document for a ladders file of any size; a fault goes to standard error with exit code 2, and nothing else is printed.
 *
 * The file is gone through a patient at a time: once to find its faults, and once to analyse; some of it also to learn the scale of error,
 * unless it is given. Whoever stops reading (`| head`) ends it quietly.
 */
async function main(): Promise<void> {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
    process.exit(0);
  });
  const { today, policy, scale, workers, ...names } = given();
  const files = openFiles(names);
  const { records } = files;
  const others = workers > 1 ? startWorkers(workers, { ...files.task, policy, today }) : undefined;
  const { all, some } = groupsOf(records.ladders.references);
  const done = (jobs: readonly Job[]): AsyncIterable<Done> | Iterable<Done> =>
    others ? others.done(jobs) : here(jobs, (job) => doJob(records, policy, today, job));
  let faults = strayFaults(records);
  const strains: Strain[] = [];
  const look = all.map((references): Job => ({ kind: 'look', variance: !scale && some.includes(references) ? 1 : null, references }));
  for await (const one of done(look)) {
    faults = firstOfBoth(faults, one.faults);
    strains.push(...one.strains);
  }
  const fault = faultToSay(faults);
  if (fault) stop(faultLine(nameOf(names[fault.of] ?? ''), fault.fault));
  let learnt = scale ?? scaleFromStrains(strains);
  for (let round = 1; round < SCALE_ROUNDS && !scale; round++) {
    const more: Strain[] = [];
    const { variance } = learnt;
    for await (const one of done(some.map((references) => ({ kind: 'strains', variance, references })))) more.push(...one.strains);
    learnt = scaleFromStrains(more);
  }
  const write = all.map((references): Job => ({ kind: 'write', scale: learnt, references }));
  await writeDocument(textsOf(done(write)), policy, today, learnt, (text) => process.stdout.write(text));
  others?.end();
  records.ladders.close();
}

function* here(jobs: Iterable<Job>, work: (job: Job) => Done): Generator<Done> {
  for (const job of jobs) yield work(job);
}

/** The patients in groups of a job's size, in the order of the file, and those groups that the scale is learnt from. */
function groupsOf(references: readonly string[]): {
  readonly all: readonly (readonly string[])[];
  readonly some: readonly (readonly string[])[];
} {
  const groups = Math.ceil(references.length / A_JOB);
  const all = Array.from({ length: groups }, (_, index) => references.slice(index * A_JOB, (index + 1) * A_JOB));
  const each = Math.ceil(groups / LEARNT_JOBS);
  return { all, some: all.filter((_, index) => index % each === 0) };
}

async function* textsOf(done: AsyncIterable<Done> | Iterable<Done>): AsyncGenerator<string> {
  for await (const { texts } of done) yield* texts;
}

/** The files as they were given. */
type GivenFiles = { readonly ladders: string; readonly pieces: string | undefined; readonly phases: string | undefined };

type Given = GivenFiles & {
  readonly today: CalendarDay;
  readonly policy: Policy;
  /** Undefined where it is to be learnt. */
  readonly scale: ErrorScale | undefined;
  readonly workers: number;
};

function given(): Given {
  const text = { type: 'string' } as const;
  const options = { garments: text, phases: text, today: text, policy: text, scale: text, workers: text };
  const { values, positionals } = readArguments(USAGE, options, { names: 1, wrong: 2 });
  const [ladders] = positionals;
  if (!ladders) return stop(USAGE);
  const today = values.today === undefined ? todayIn(Intl.DateTimeFormat().resolvedOptions().timeZone) : dayFrom(values.today);
  const policy = values.policy === undefined ? DEFAULT_POLICY : policyFrom(values.policy);
  const workers = workersFrom(values.workers ?? '1');
  return { ladders, pieces: values.garments, phases: values.phases, today, policy, scale: scaleFrom(values.scale ?? 'learn'), workers };
}

/** The files opened and looked at, and what workers are told of them. */
function openFiles({ ladders, pieces, phases }: GivenFiles) {
  const input = inputFile(ladders);
  if (!input) return stop(`${ladders}: cannot be read.`);
  const index = orRefused(ladders, () => indexOf(input.path));
  const texts = { pieces: pieces === undefined ? undefined : textOf(pieces), phases: phases === undefined ? undefined : textOf(phases) };
  const rowsOf = (name: string | undefined, text: string | undefined, rows: typeof pieceRows) =>
    rowsByPatient(name === undefined || text === undefined ? [] : orRefused(name, () => rows(text)));
  const records: GivenRecords = {
    ladders: laddersAt(input.path, index),
    pieces: rowsOf(pieces, texts.pieces, pieceRows),
    phases: rowsOf(phases, texts.phases, phaseRows),
  };
  return { records, task: { file: input.path, index, ...texts } };
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

function workersFrom(text: string): number {
  const workers = /^\d{1,2}$/.test(text) ? Number(text) : 0;
  return workers >= 1 && workers <= MOST_WORKERS
    ? workers
    : stop(`--workers: write a whole number from 1 to ${MOST_WORKERS}, not ${text}.`);
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

void main();
