import fs from 'node:fs';
import path from 'node:path';
import { todayIn } from '@/app/_auth/today';
import { personWithEmail } from '@/app/_commands/person-with-email';
import { EXIT, readArguments } from '@/app/_commands/read-arguments';
import { runCommand, say } from '@/app/_commands/run-command';
import { counted } from '@/app/_exchange/counted';
import { itemsInWords } from '@/app/_exchange/import-words';
import { readIncoming } from '@/app/_exchange/read-incoming';
import { takenFrom } from '@/app/_exchange/taken-from';
import { clinicOf } from '@/db/clinic/clinic';
import { policyOf } from '@/db/clinic/policy';
import { bringInNext, keepUpload, lineUp, type Upload } from '@/db/exchange/imports';
import { importWithCounts } from '@/db/exchange/read-imports';
import { undoImport } from '@/db/exchange/undo-import';
import type { Therapist } from '@/db/therapist';
import { refreshStale } from '@/db/worklist/refresh-work';
import type { CsvFault } from '@/lib/exchange/csv-table';
import { faultGroups, faultTable } from '@/lib/exchange/fault-report';
import { importDoubts } from '@/lib/exchange/import-doubts';
import { MAPPING, type Mapping } from '@/lib/exchange/spreadsheet/mapping';
import { bringInOneByOne, laddersIn, lookThrough } from './import-ladders';
import { inputFile } from './input-file';
import type { LaddersByPatient } from './ladders-by-patient';

const USAGE = `npm run import -- --by lead@clinic.example file [--sheet name] [--mapping mapping.json] [--report bad-cells.csv] [--yes]
npm run import -- --by lead@clinic.example --undo <id>
  The file is a spreadsheet (.xlsx or CSV), a set taken out of this program (its folder or .zip), or a FHIR bundle;
  - is standard input. A ladders file may be of any size. Ends with 0, with 1 when it was refused, with 2 when some cells could not be read.
  Without --yes it only says what it read. A mapping that lacks an answer is printed with what is missing.`;

/** Patients brought in between two lines of progress. */
const AT_ONCE = 200;

/** Patients of a large file that are held and brought in together. */
const PART = 20;

/** Bad cells of a large file that go into a report at most: they are held until it is written. */
const MOST_KEPT = 100_000;

/** Fault lines printed at most. */
const MOST_SHOWN = 20;

const { values, positionals } = readArguments(
  USAGE,
  {
    by: { type: 'string' },
    mapping: { type: 'string' },
    undo: { type: 'string' },
    sheet: { type: 'string' },
    report: { type: 'string' },
    yes: { type: 'boolean', default: false },
  },
  { names: 1 },
);

/** Brings a file in without the server, in the same steps as the screen: read, look, bring in patient by patient; or takes one back. */
async function importFile(): Promise<string | number | undefined> {
  const [file] = positionals;
  if (!values.by || (!file && !values.undo)) return USAGE;
  const lead = await personWithEmail(values.by);
  if (lead?.role !== 'lead') return `${values.by} is not a lead of this clinic. Only a lead brings files in.`;
  if (values.undo) return undo(lead, values.undo);
  const given = inputFile(file ?? '');
  if (!given) return `${file} cannot be read.`;
  const ladders = fs.statSync(given.path).isDirectory() || values.mapping !== undefined ? undefined : laddersIn(given.path);
  return ladders ? importLadders(lead, given.name, ladders) : importWhole(lead, given.path, given.name);
}

/** Brings a ladders file of any size in, a patient at a time. */
async function importLadders(lead: Therapist, name: string, ladders: LaddersByPatient): Promise<string | number> {
  const [policy, today] = [await policyOf(lead), todayIn((await clinicOf(lead)).timeZone)];
  const found = lookThrough(ladders, today, values.report ? MOST_KEPT : MOST_SHOWN, (one) =>
    values.yes ? 0 : importDoubts(one, policy).length,
  );
  sayWhatWasRead(found);
  const code = found.faulty > 0 ? EXIT.cellsNotRead : EXIT.done;
  if (!values.yes) {
    sayDoubts(found.doubts);
    return code;
  }
  if (found.patients === 0) return 'Nothing was changed.';
  const id = await bringInOneByOne(lead, path.basename(name), ladders, { patients: found.patients, today, atOnce: PART });
  await sayWhatBecame(lead, id);
  return code;
}

/** Brings any other file in, read whole. */
async function importWhole(lead: Therapist, file: string, name: string): Promise<string | number> {
  const upload = await uploadOfFile(file, name, values.sheet ?? '');
  if (typeof upload === 'string') return upload;
  const mapping = values.mapping === undefined ? null : mappingIn(values.mapping);
  if (typeof mapping === 'string') return mapping;
  const read = readIncoming(upload, mapping, todayIn((await clinicOf(lead)).timeZone));
  if (read.leftOut && read.leftOut.length > 0) say(`${counted(read.leftOut.length, 'column')} left out: ${read.leftOut.join(', ')}.`);
  for (const sentence of read.said ?? []) say(sentence);
  if (read.lost)
    say(
      `${read.lost.lost} figures stand a thousandfold, as ${read.lost.example}: a spreadsheet of another language took their point for thousands. Answer "figures": "thousandths" to put it back.`,
    );
  if (read.sheet && read.sheet.missing.length > 0) {
    say(JSON.stringify(read.sheet.mapping, null, 2));
    return `This is how the file would be read. Save it as mapping.json, answer ${read.sheet.missing.join(', ')}, and give it with --mapping.`;
  }
  const visits = read.patients.reduce((sum, one) => sum + one.visits.length, 0);
  sayWhatWasRead({ patients: read.patients.length, visits, faults: read.faults, faulty: read.faults.length });
  const code = read.faults.length > 0 ? EXIT.cellsNotRead : EXIT.done;
  if (!values.yes) {
    const policy = await policyOf(lead);
    sayDoubts(read.patients.reduce((sum, one) => sum + importDoubts(one, policy).length, 0));
    return code;
  }
  if (read.patients.length === 0) return 'Nothing was changed.';
  await bringIn(lead, upload, read.patients);
  return code;
}

type WhatWasRead = { readonly patients: number; readonly visits: number; readonly faults: readonly CsvFault[]; readonly faulty: number };

/** Says how much was read on standard output, and each cell that was not on standard error. */
function sayWhatWasRead({ patients, visits, faults, faulty }: WhatWasRead): void {
  const kinds = faultGroups(faults).slice(0, MOST_SHOWN);
  for (const { first, cells } of kinds)
    process.stderr.write(`${faultLine(first)}${cells > 1 ? ` And ${cells - 1} more of this column.` : ''}\n`);
  if (faulty > kinds.length) process.stderr.write(`${faulty} in all; --report file.csv names each.\n`);
  if (values.report) fs.writeFileSync(values.report, faultTable(faults), { flag: 'wx' });
  say(`${counted(patients, 'patient')} with ${counted(visits, 'visit')} can be brought in; ${counted(faulty, 'cell')} could not be read.`);
}

function faultLine({ file, line, column, reason }: CsvFault): string {
  return `${file ? `${file}, ` : ''}line ${line}, ${column}: ${reason}`;
}

function sayDoubts(doubts: number): void {
  say(
    `${doubts} readings would have been asked about; they come in as written, and the questions stay open. Nothing was changed: add --yes.`,
  );
}

async function bringIn(lead: Therapist, upload: Upload, patients: Parameters<typeof lineUp>[2]): Promise<void> {
  const id = await keepUpload(lead, upload);
  await lineUp(lead, id, patients);
  for (let taken = 0, now = 1; now > 0; taken += now) {
    now = await bringInNext(lead, id, AT_ONCE);
    if (now > 0) say(`${taken + now} of ${patients.length}`);
  }
  await sayWhatBecame(lead, id);
}

async function sayWhatBecame(lead: Therapist, id: string): Promise<void> {
  await refreshStale(lead, todayIn((await clinicOf(lead)).timeZone));
  const found = await importWithCounts(lead, id);
  for (const [state, items] of Object.entries(found?.counts ?? {})) say(itemsInWords(state as Parameters<typeof itemsInWords>[0], items));
  for (const { reference, words } of found?.worded ?? []) say(`${reference ?? ''}: ${words}`);
  say(`To take it back: npm run import -- --by ${values.by} --undo ${id}`);
}

async function undo(lead: Therapist, id: string): Promise<string | undefined> {
  const undone = await undoImport(lead, id);
  if (!undone) return 'There is no such import, or it is not closed yet. Nothing was changed.';
  await refreshStale(lead, todayIn((await clinicOf(lead)).timeZone));
  say(`${undone.undone} taken back.`);
  for (const reference of undone.stayed) say(`${reference} stays: its record went on since.`);
  return undefined;
}

async function uploadOfFile(file: string, name: string, sheet: string): Promise<Upload | string> {
  if (fs.statSync(file).isDirectory()) {
    const texts = fs.readdirSync(file).map((one) => [one, fs.readFileSync(path.join(file, one), 'utf8')] as const);
    return { fileName: path.basename(file), form: 'set', text: JSON.stringify(Object.fromEntries(texts)) };
  }
  const taken = await takenFrom(path.basename(name), fs.readFileSync(file), sheet);
  if (taken.kind === 'refused') return taken.reason;
  for (const sentence of taken.said) say(sentence);
  return taken.upload;
}

function mappingIn(file: string): Mapping | string {
  try {
    const read = MAPPING.safeParse(JSON.parse(fs.readFileSync(file, 'utf8')));
    const issue = read.error?.issues[0];
    return read.success ? read.data : `${file}: ${issue?.path.join('.')}: ${issue?.message}`;
  } catch {
    return `${file} cannot be read, or is not JSON.`;
  }
}

await runCommand(importFile);
