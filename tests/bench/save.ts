import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import BetterSqlite from 'better-sqlite3';
import type { TypedVisit } from '@/db/visits';
import { person } from '@/tests/cohort/person';
import { seeded } from '@/tests/cohort/random';
import { syntheticLimbs } from '@/tests/cohort/synthetic-limbs';
import { ordinaryVisit, tapedPerson } from '@/tests/cohort/taped-person';
import { line } from './timed';

const PERSON = {
  name: 'R. Adeyemi',
  role: 'lead',
  passwordHash: 'not a hash: nobody signs in here',
  email: 'bench@harbour.example',
} as const;
const CLINIC = { name: 'Harbour Lane', subtitle: 'garment clinic', lengthUnit: 'cm', massUnit: 'kg', timeZone: 'Europe/London' } as const;

/** Saves of a two-limb visit through `db/visits`, against the bare durable commit of the same rows by prepared statements. */
export async function benchSave(saves: number): Promise<void> {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'rungwise-bench-'));
  delete process.env.DATABASE_URL;
  process.env.DB_FILE = path.join(folder, 'clinic.db');
  const { closeDatabase } = await import('@/db/client');
  const { openClinic } = await import('@/db/people');
  const { therapistWithId } = await import('@/db/therapist');
  const { addPatient } = await import('@/db/patients');
  const { saveVisit } = await import('@/db/visits');
  const opened = await openClinic(CLINIC, PERSON);
  const therapist = await therapistWithId('id' in opened ? opened.id : '');
  if (!therapist) throw new Error('no therapist was added');
  const details = {
    reference: 'B-1',
    name: null,
    born: '1980-01-01' as never,
    sex: 'F',
    diagnosisGroup: 'other',
    affected: [],
    language: 'en',
    note: null,
  } as const;
  const added = await addPatient(therapist, { submissionId: crypto.randomUUID(), details });
  const patientId = 'patientId' in added ? added.patientId : '';
  const visit = madeUpVisit();
  const save = async () => {
    const saved = await saveVisit(therapist, { patientId, submissionId: crypto.randomUUID(), visit });
    if (saved.kind !== 'saved') throw new Error(`not saved: ${saved.kind}`);
  };
  await save();
  const start = process.hrtime.bigint();
  for (let done = 0; done < saves; done++) await save();
  const whole = Number(process.hrtime.bigint() - start) / 1e9;
  await closeDatabase();
  const floor = bareCommits(process.env.DB_FILE, saves);
  line('Save of a two-limb visit', `${saves} saves`, whole, 'the bare durable commit of the same rows', floor);
  fs.rmSync(folder, { recursive: true });
}

function madeUpVisit(): TypedVisit {
  const random = seeded(3);
  const [shape] = syntheticLimbs('leg');
  if (!shape) throw new Error('no limb');
  const setUp = { unit: 'cm', intervalMm: 35, direction: 'up', landmarks: 'all', sides: ['left', 'right'] } as const;
  const { record } = tapedPerson(person('still', shape, random), [ordinaryVisit(0)], setUp, random);
  return record.visits[0] as TypedVisit;
}

/** Copies the rows of the last save, each time under new ids, in one immediate transaction with the same durability. */
function bareCommits(file: string, saves: number): number {
  const database = new BetterSqlite(file);
  database.pragma('journal_mode = WAL');
  database.pragma('synchronous = FULL');
  database.pragma('foreign_keys = ON');
  const copies = ['visit', 'visit_revision', 'ladder', 'audit'].map((table) => copierOf(database, table));
  const commit = database.transaction((suffix: string) => {
    for (const copy of copies) copy(suffix);
  });
  const start = process.hrtime.bigint();
  for (let done = 0; done < saves; done++) commit.immediate(`-${done}`);
  const seconds = Number(process.hrtime.bigint() - start) / 1e9;
  database.close();
  return seconds;
}

/** Writes the rows that the newest save left in a table once more; ids and what refers to them get the suffix. */
function copierOf(database: BetterSqlite.Database, table: string): (suffix: string) => void {
  const newest = database.prepare('select id, visit_id from visit_revision order by rowid desc limit 1').get() as {
    id: string;
    visit_id: string;
  };
  const which =
    table === 'visit'
      ? 'id = @visit'
      : table === 'visit_revision'
        ? 'id = @revision'
        : table === 'ladder'
          ? 'visit_revision_id = @revision'
          : 'subject_id = @visit';
  const given = { visit: newest.visit_id, revision: newest.id };
  const used = Object.fromEntries(Object.entries(given).filter(([name]) => which.includes(`@${name}`)));
  const rows = database.prepare(`select * from ${table} where ${which}`).all(used) as Record<string, unknown>[];
  const columns = Object.keys(rows[0] ?? {});
  const insert = database.prepare(
    `insert into ${table} (${columns.join(', ')}) values (${columns.map((column) => `@${column}`).join(', ')})`,
  );
  const renewed = new Set(['id', 'visit_id', 'visit_revision_id', 'submission_id', 'subject_id']);
  const kept = (column: string, row: Record<string, unknown>) => (column === 'number' && table === 'audit' ? null : row[column]);
  return (suffix) => {
    for (const row of rows) {
      insert.run(
        Object.fromEntries(columns.map((column) => [column, renewed.has(column) ? `${row[column]}${suffix}` : kept(column, row)])),
      );
    }
  };
}
