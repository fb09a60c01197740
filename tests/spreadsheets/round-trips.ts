import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { readIncoming } from '@/app/_exchange/read-incoming';
import { setWorkbook } from '@/app/_exchange/set-workbook';
import { takenFrom } from '@/app/_exchange/taken-from';
import { figuresKey } from '@/lib/exchange/same-visit';
import { DICTIONARY_FILE, dataDictionary, fileNameOf } from '@/lib/exchange/set/data-dictionary';
import { setCounter } from '@/lib/exchange/set/set-tally';
import { headerLine, linesOf, SET_TABLES, type SetStyle } from '@/lib/exchange/set/write-set';
import type { PatientFile } from '@/lib/record/patient-file';
import { comparable, PEOPLE, PLAIN, partOfPerson, TODAY } from './made-up-set';
import { LANGUAGES, type Language, programVersion, saveAs } from './spreadsheet-program';

/** Sets of tables that go through: people with references that programs change, to the letter and for spreadsheets, and the same under plain ones. */
const TABLES = {
  raw: { research: false, defused: false, people: PEOPLE },
  sheets: { research: false, defused: true, people: PEOPLE },
  plain: { research: false, defused: true, people: PLAIN },
} as const;

/** What became of one set that went through the spreadsheet program. */
type Trip = { readonly trip: string; readonly ended: 'equal' | 'refused'; readonly said: string };

/**
 * Sets through the spreadsheet program and back: as a workbook and as tables, in each language, as .xlsx, .ods and CSV.
 *
 * `altered` counts patients that came in otherwise than they went out and nobody said so (where it was said, those with another figure, day or time), `doubled` and `merged` patients that stand twice or
 * became one; all three must be nothing. `recordTo` keeps what the program wrote as fixtures.
 */
export async function spreadsheetTrips(recordTo: string | undefined) {
  const program = programVersion();
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-trips-'));
  const workbook = path.join(folder, 'set.xlsx');
  const made = await setWorkbook(outgoing(), partOfPerson, TODAY);
  if (made.kind === 'refused') throw new Error(made.reason);
  fs.writeFileSync(workbook, made.bytes);
  const trips: Trip[] = [];
  const counts = { altered: 0, doubled: 0, merged: 0 };
  const judge = (
    trip: string,
    patients: readonly PatientFile[],
    refusal: string | undefined,
    said: readonly string[] = [],
    people = PEOPLE,
  ) => {
    if (patients.length === 0) {
      if (!refusal) counts.altered += people.length;
      trips.push({ trip, ended: 'refused', said: refusal ?? 'nothing was said' });
      return;
    }
    const sent = new Map(people.map((file) => [file.details.reference, JSON.stringify(comparable(file))]));
    const sentFigures = new Map(people.map((file) => [file.details.reference, figuresOf(file)]));
    const references = patients.map(({ details }) => details.reference);
    counts.doubled += references.length - new Set(references).size;
    counts.merged += Math.max(0, people.length - new Set(references).size);
    const other = patients.filter((file) => sent.get(file.details.reference) !== JSON.stringify(comparable(file))).length;
    const figures = patients.filter((file) => sentFigures.get(file.details.reference) !== figuresOf(file)).length;
    counts.altered += said.length > 0 ? figures : other;
    trips.push({ trip, ended: 'equal', said: `${patients.length} patients${said.length > 0 ? `; said: ${said.join(' ')}` : ''}` });
  };
  for (const language of Object.keys(LANGUAGES) as Language[]) {
    for (const form of ['xlsx', 'ods'] as const) {
      const out = saveAs([workbook], form, language);
      const file = path.join(out, `set.${form}`);
      const taken = await takenFrom(`set.${form}`, fs.readFileSync(file), '');
      const read = taken.kind === 'taken' ? readIncoming(taken.upload, null, TODAY) : undefined;
      judge(
        `workbook, ${language}, ${form}`,
        read?.patients ?? [],
        taken.kind === 'refused' ? taken.reason : read?.faults[0]?.reason,
        read?.said,
      );
      if (recordTo && (form === 'xlsx' || language === 'en-US')) keep(file, path.join(recordTo, `${language}.${form}`));
      fs.rmSync(out, { recursive: true, force: true });
    }
    for (const [name, { people, ...style }] of Object.entries(TABLES)) {
      const tables = tablesOf(path.join(folder, `${language}-${name}`), style, people);
      const out = saveAs(tables, 'csv', language);
      fs.copyFileSync(path.join(path.dirname(tables[0] ?? ''), DICTIONARY_FILE), path.join(out, DICTIONARY_FILE));
      const texts = Object.fromEntries(fs.readdirSync(out).map((one) => [one, fs.readFileSync(path.join(out, one), 'utf8')]));
      const read = readIncoming({ fileName: 'set', form: 'set', text: JSON.stringify(texts) }, null, TODAY);
      judge(`tables (${name}), ${language}, csv`, read.patients, read.faults[0]?.reason, read.said, people);
      if (recordTo && name === 'plain')
        for (const one of fs.readdirSync(out)) keep(path.join(out, one), path.join(recordTo, `${language}-csv`, one));
      fs.rmSync(out, { recursive: true, force: true });
    }
  }
  fs.rmSync(folder, { recursive: true, force: true });
  for (const { trip, ended, said } of trips) console.log(`${trip}: ${ended}; ${said}`);
  return { program, trips: trips.length, equal: trips.filter(({ ended }) => ended === 'equal').length, ...counts };
}

/** What a file says in figures and days, without the words. */
function figuresOf({ visits, details: { born, sex } }: PatientFile): string {
  return JSON.stringify([born, sex, visits.map(figuresKey)]);
}

async function* outgoing() {
  for (const file of PEOPLE) yield { patientId: file.details.reference, file };
}

/** The tables of the set in a folder, with the dictionary beside them; the tables' files. */
function tablesOf(folder: string, style: SetStyle, people: readonly PatientFile[]): readonly string[] {
  fs.mkdirSync(folder, { recursive: true });
  const counter = setCounter();
  const files = SET_TABLES.map((table) => {
    const file = path.join(folder, fileNameOf(table));
    const parts = people.map((person) => partOfPerson({ patientId: person.details.reference, file: person }));
    fs.writeFileSync(
      file,
      headerLine(table, style) + parts.map((part) => counter.noted(table, part, linesOf(table, part, style))).join(''),
    );
    return file;
  });
  fs.writeFileSync(path.join(folder, DICTIONARY_FILE), JSON.stringify(dataDictionary(style, TODAY, counter.tally()), null, 2));
  return files;
}

function keep(file: string, to: string): void {
  fs.mkdirSync(path.dirname(to), { recursive: true });
  fs.copyFileSync(file, to);
}
