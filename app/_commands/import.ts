import fs from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { counted } from '@/app/_exchange/counted';
import { itemsInWords } from '@/app/_exchange/import-words';
import { readIncoming } from '@/app/_exchange/read-incoming';
import { takenFrom } from '@/app/_exchange/taken-from';
import { todayIn } from '@/app/_session/today';
import { clinicOf } from '@/db/clinic/clinic';
import { policyOf } from '@/db/clinic/policy';
import { bringInNext, keepUpload, lineUp, type Upload } from '@/db/exchange/imports';
import { importWithCounts } from '@/db/exchange/read-imports';
import { undoImport } from '@/db/exchange/undo-import';
import type { Therapist } from '@/db/therapist';
import { renewStale } from '@/db/worklist/refresh-work';
import { importDoubts } from '@/lib/exchange/import-doubts';
import { MAPPING, type Mapping } from '@/lib/exchange/spreadsheet/mapping';
import { personWithEmail } from './person-with-email';
import { runCommand, say } from './run-command';

const USAGE = `npm run import -- --by lead@clinic.example file [--sheet name] [--mapping mapping.json] [--yes]
npm run import -- --by lead@clinic.example --undo <id>
  The file is a spreadsheet (.xlsx or CSV), a set taken out of this program (its folder or .zip), or a FHIR bundle.
  Without --yes it only says what it read. A mapping that lacks an answer is printed with what is missing.`;

/** Patients brought in between two lines of progress. */
const AT_ONCE = 200;

/** Fault lines printed at most. */
const MOST_SHOWN = 50;

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    by: { type: 'string' },
    mapping: { type: 'string' },
    undo: { type: 'string' },
    sheet: { type: 'string' },
    yes: { type: 'boolean', default: false },
  },
});

/** Brings a file in without the server, in the same steps as the screen: read, look, bring in patient by patient; or takes one back. */
async function importFile(): Promise<string | undefined> {
  const [file] = positionals;
  if (!values.by || (!file && !values.undo)) return USAGE;
  const lead = await personWithEmail(values.by);
  if (lead?.role !== 'lead') return `${values.by} is not a lead of this clinic. Only a lead brings files in.`;
  if (values.undo) return undo(lead, values.undo);
  const upload = await uploadOfFile(file ?? '', values.sheet ?? '');
  if (typeof upload === 'string') return upload;
  const mapping = values.mapping === undefined ? null : mappingIn(values.mapping);
  if (typeof mapping === 'string') return mapping;
  const read = readIncoming(upload, mapping, todayIn((await clinicOf(lead)).timeZone));
  if (read.leftOut && read.leftOut.length > 0) say(`${counted(read.leftOut.length, 'column')} left out: ${read.leftOut.join(', ')}.`);
  if (read.sheet && read.sheet.missing.length > 0) {
    say(JSON.stringify(read.sheet.mapping, null, 2));
    return `This is how the file would be read. Save it as mapping.json, answer ${read.sheet.missing.join(', ')}, and give it with --mapping.`;
  }
  for (const { file: table, line, column, reason } of read.faults.slice(0, MOST_SHOWN))
    say(`${table ? `${table}, ` : ''}line ${line}, ${column}: ${reason}`);
  if (read.faults.length > MOST_SHOWN) say(`and ${read.faults.length - MOST_SHOWN} more.`);
  const visits = read.patients.reduce((sum, one) => sum + one.visits.length, 0);
  say(
    `${counted(read.patients.length, 'patient')} with ${counted(visits, 'visit')} can be brought in; ${counted(read.faults.length, 'cell')} could not be read.`,
  );
  if (!values.yes) {
    const policy = await policyOf(lead);
    const doubts = read.patients.reduce((sum, one) => sum + importDoubts(one, policy).length, 0);
    say(
      `${doubts} readings would have been asked about; they come in as written, and the questions stay open. Nothing was changed: add --yes.`,
    );
    return undefined;
  }
  if (read.patients.length === 0) return 'Nothing was changed.';
  return bringIn(lead, upload, read.patients);
}

async function bringIn(lead: Therapist, upload: Upload, patients: Parameters<typeof lineUp>[2]): Promise<undefined> {
  const id = await keepUpload(lead, upload);
  await lineUp(lead, id, patients);
  for (let taken = 0, now = 1; now > 0; taken += now) {
    now = await bringInNext(lead, id, AT_ONCE);
    if (now > 0) say(`${taken + now} of ${patients.length}`);
  }
  await renewStale(lead, todayIn((await clinicOf(lead)).timeZone));
  const found = await importWithCounts(lead, id);
  for (const [state, items] of Object.entries(found?.counts ?? {})) say(itemsInWords(state as Parameters<typeof itemsInWords>[0], items));
  for (const { reference, words } of found?.worded ?? []) say(`${reference ?? ''}: ${words}`);
  say(`To take it back: npm run import -- --by ${values.by} --undo ${id}`);
  return undefined;
}

async function undo(lead: Therapist, id: string): Promise<string | undefined> {
  const undone = await undoImport(lead, id);
  if (!undone) return 'There is no such import, or it is not closed yet. Nothing was changed.';
  await renewStale(lead, todayIn((await clinicOf(lead)).timeZone));
  say(`${undone.undone} taken back.`);
  for (const reference of undone.stayed) say(`${reference} stays: its record went on since.`);
  return undefined;
}

async function uploadOfFile(file: string, sheet: string): Promise<Upload | string> {
  if (!fs.existsSync(file)) return `${file} cannot be read.`;
  if (fs.statSync(file).isDirectory()) {
    const texts = fs.readdirSync(file).map((name) => [name, fs.readFileSync(path.join(file, name), 'utf8')] as const);
    return { fileName: path.basename(file), form: 'set', text: JSON.stringify(Object.fromEntries(texts)) };
  }
  const taken = await takenFrom(path.basename(file), fs.readFileSync(file), sheet);
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
