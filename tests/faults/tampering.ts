import type BetterSqlite from 'better-sqlite3';
import type { Random } from '@/tests/cohort/random';
import type { MadeUpClinic } from '@/tests/db/made-up-clinic';

/** How many changes behind the program's back were tried, and which were not seen. */
export type Tampered = {
  readonly tried: number;
  readonly seen: number;
  readonly missed: readonly string[];
  readonly kinds: ReadonlyMap<string, number>;
};

type Clinics = { readonly clinic: string; readonly other: string; readonly rows: number };

/** One way to change the history with the file in hand and the triggers gone, but without the key; says what it did. */
type Trick = (file: BetterSqlite.Database, random: Random, clinics: Clinics) => string;

const TEXTS = ['id', 'who', 'action', 'subject_kind', 'subject_id', 'link', 'salt', 'detail_digest'];
const whole = (random: Random, below: number) => Math.floor(random.uniform() * below);
const some = (random: Random, rows: number) => 1 + whole(random, rows);

const TRICKS: Readonly<Record<string, Trick>> = {
  edit: (file, random, { clinic, rows }) => {
    const column = random.pick(TEXTS);
    const number = some(random, rows);
    file.prepare(`update audit set ${column} = coalesce(${column}, '') || 'x' where clinic_id = ? and number = ?`).run(clinic, number);
    return `${column} of row ${number}`;
  },
  'another moment': (file, random, { clinic, rows }) => {
    const number = some(random, rows);
    file.prepare('update audit set at = at + 1 where clinic_id = ? and number = ?').run(clinic, number);
    return `moment of row ${number}`;
  },
  'another detail': (file, random, { clinic, rows }) => {
    const number = some(random, rows);
    const detail = JSON.stringify({ value: random.uniform() });
    file.prepare('update audit set detail = ? where clinic_id = ? and number = ?').run(detail, clinic, number);
    return `detail of row ${number}`;
  },
  'detail blanked': (file, random, { clinic, rows }) => {
    const number = some(random, rows);
    file
      .prepare("update audit set detail = null, salt = null, erasure_id = 'made up' where clinic_id = ? and number = ?")
      .run(clinic, number);
    return `detail of row ${number} blanked`;
  },
  deletion: (file, random, { clinic, rows }) => {
    const number = some(random, rows);
    file.prepare('delete from audit where clinic_id = ? and number = ?').run(clinic, number);
    return `row ${number} deleted`;
  },
  'deletion, numbers closed up': (file, random, { clinic, rows }) => {
    const number = some(random, rows);
    file.prepare('delete from audit where clinic_id = ? and number = ?').run(clinic, number);
    file.prepare('update audit set number = -number + 1 where clinic_id = ? and number > ?').run(clinic, number);
    file.prepare('update audit set number = -number where clinic_id = ? and number < 0').run(clinic);
    headTo(file, clinic);
    return `row ${number} deleted and closed up`;
  },
  'two rows exchanged': (file, random, { clinic, rows }) => {
    const one = some(random, rows);
    const other = (one % rows) + 1;
    const renumber = file.prepare('update audit set number = ? where clinic_id = ? and number = ?');
    renumber.run(-1, clinic, one);
    renumber.run(one, clinic, other);
    renumber.run(other, clinic, -1);
    return `rows ${one} and ${other} exchanged`;
  },
  'the end cut off': (file, random, { clinic, rows }) => {
    const number = some(random, rows);
    file.prepare('delete from audit where clinic_id = ? and number >= ?').run(clinic, number);
    headTo(file, clinic);
    return `rows from ${number} on cut off`;
  },
  'moved to another clinic': (file, random, { clinic, other, rows }) => {
    const number = some(random, rows);
    const next = file.prepare('select max(number) + 1 from audit where clinic_id = ?').pluck().get(other);
    file.prepare('update audit set clinic_id = ?, number = ? where clinic_id = ? and number = ?').run(other, next, clinic, number);
    headTo(file, other);
    return `row ${number} moved to another clinic`;
  },
  'a row put in': (file, random, { clinic, rows }) => {
    const number = random.pick([rows + 1, null, 0, -1]);
    file
      .prepare(`insert into audit (id, clinic_id, at, who, action, subject_kind, subject_id, detail, number, salt, detail_digest, link, contents)
        select 'forged', clinic_id, at, who, action, subject_kind, subject_id, detail, ?, salt, detail_digest, link, contents from audit where clinic_id = ? and number = ?`)
      .run(number, clinic, some(random, rows));
    headTo(file, clinic);
    return `a row put in as ${number}`;
  },
  'the whole history taken': (file, _random, { clinic }) => {
    file.prepare('delete from audit where clinic_id = ?').run(clinic);
    file.prepare('delete from audit_head where clinic_id = ?').run(clinic);
    return 'the whole history taken';
  },
};

/** Makes the head in the database fit what was done to the rows: whoever can do the one can do the other. */
function headTo(file: BetterSqlite.Database, clinic: string): void {
  const last = file.prepare('select number, link from audit where clinic_id = ? order by number desc limit 1').get(clinic) as
    | Last
    | undefined;
  file.prepare('update audit_head set length = ?, link = ? where clinic_id = ?').run(last?.number ?? 0, last?.link ?? '', clinic);
}

type Last = { readonly number: number; readonly link: string };

/** Changes the history in `times` random ways, one at a time, each undone again, and asks the check each time. */
export async function tamper(at: MadeUpClinic, rows: number, times: number, random: Random): Promise<Tampered> {
  const { checkHistory } = await import('@/db/upkeep/check-data');
  const { headsBeside, writeWaitingHeads } = await import('@/db/audit/audit-head');
  const note = (value: number) => at.db.clinic.changeSetting(at.therapist, { key: 'k', value, reason: null });
  for (let value = 0; value < rows; value++) await note(value);
  const database = await at.db.client.getDatabase();
  const file = (database as unknown as { $client: BetterSqlite.Database }).$client;
  const triggers = file.prepare("select name from sqlite_master where type = 'trigger'").pluck().all() as string[];
  for (const name of triggers) file.exec(`drop trigger ${name}`);
  file.pragma('foreign_keys = OFF');
  writeWaitingHeads();
  const heads = headsBeside(at.file);
  const clinic = at.therapist.clinicId;
  const length = file.prepare('select length from audit_head where clinic_id = ?').pluck().get(clinic) as number;
  if ((await checkHistory(database, heads)).findings.some((one) => one.problems.length > 0))
    throw new Error('the history does not hold before anything was done');
  const kinds = new Map<string, number>();
  const missed: string[] = [];
  const names = Object.keys(TRICKS);
  for (let time = 0; time < times; time++) {
    const name = names[time % names.length] ?? '';
    file.exec('begin');
    const did = TRICKS[name]?.(file, random, { clinic, other: at.stranger.clinicId, rows: length }) ?? '';
    const { findings } = await checkHistory(database, heads);
    file.exec('rollback');
    kinds.set(name, (kinds.get(name) ?? 0) + 1);
    if (findings.every((one) => one.problems.length === 0)) missed.push(`${name}: ${did}`);
  }
  return { tried: times, seen: times - missed.length, missed, kinds };
}
