import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { savePaths } from '@/tests/faults/save-paths';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';

/** Tables whose rows never change and never go. */
const APPEND_ONLY = [
  ...[
    'audit',
    'caution_answer',
    'clinic_setting',
    'course_revision',
    'erasure',
    'given_answer',
    'issued_document',
    'ladder',
    'moved_date',
    'noted_revision',
    'order_revision',
  ],
  ...['patient_coverage', 'patient_event', 'patient_revision', 'piece_revision', 'prompt_answer', 'repeat_taping', 'share_opening'],
  'study_revision',
  'visit_revision',
];

/** Heads point to what counts and so may change, but never go, and never change whose they are. */
const HEADS = ['audit_head', 'garment_order', 'patient', 'piece', 'share_link', 'visit'];

/** Everything else: who may sign in and how, unfinished forms, and what is computed anew from the record. */
const OTHERS = [
  ...[
    '__drizzle_migrations',
    'account',
    'answer_outcome',
    'calendar_feed',
    'clinic',
    'counted_try',
    'data_import',
    'draft',
    'due_date',
    'import_item',
  ],
  ...[
    'one_time_link',
    'recovery_code',
    'search_part',
    'second_factor',
    'service_case',
    'service_count',
    'service_part',
    'session',
    'study_draft',
    'user',
    'verification',
    'work_count',
    'work_line',
    'work_state',
  ],
];

describe.each(ENGINES)('the record on %s refuses to be rewritten', (engine) => {
  let at: ClinicOn;
  let runSql: typeof import('@/db/sql/run-sql').runSql;

  beforeAll(async () => {
    at = await clinicOn(engine);
    ({ runSql } = await import('@/db/sql/run-sql'));
    for (const path of savePaths(at, 'HL-0001', 'words')) await path.write();
    const patientId = (await at.db.find.findPatients(at.therapist)).rows[0]?.patientId ?? '';
    const [page] = await at.db.familyPages.familyPagesOf(at.therapist, patientId);
    await at.db.links.openSharedPage((await at.db.links.openLink(at.therapist, page?.documentId ?? '')) ?? '');
    const gone = await at.db.patients.addPatient(at.therapist, {
      submissionId: 'gone',
      details: { ...(await head(patientId)), reference: 'HL-2' },
    });
    const { erasePatient } = await import('@/db/erasure/erase-patient');
    await erasePatient(at.therapist, 'patientId' in gone ? gone.patientId : '', 'asked for');
  });
  afterAll(async () => at?.close());

  async function head(patientId: string) {
    const found = await at.db.patients.patientHead(at.therapist, patientId);
    if (!found) throw new Error('no patient');
    return found;
  }

  const all = async (statement: string) => runSql<Record<string, unknown>>(await at.db.client.getDatabase(), statement);

  /** The words with which the database refused a statement; empty when it did not. */
  async function refusal(statement: string): Promise<string> {
    try {
      await all(engine === 'sqlite' ? `${statement} returning *` : statement);
      return '';
    } catch (error) {
      const words = [];
      for (let one: unknown = error; one instanceof Error; one = one.cause) words.push(one.message);
      return words.join(' ');
    }
  }

  it('every table is in one of the three lists', async () => {
    const query =
      engine === 'sqlite'
        ? "select name from sqlite_master where type = 'table' and name not like 'sqlite\\_%' escape '\\'"
        : "select tablename as name from pg_tables where schemaname = 'public'";
    expect((await all(query)).map((one) => String(one.name)).sort()).toEqual([...APPEND_ONLY, ...HEADS, ...OTHERS].sort());
  });

  it.each(APPEND_ONLY)('%s: no row can be changed, removed or emptied out', async (table) => {
    const before = await all(`select * from ${table}`);
    expect(before.length).toBeGreaterThan(0);
    expect(await refusal(`update ${table} set id = 'another'`)).toContain(`${table} is append-only`);
    expect(await refusal(`delete from ${table}`)).toContain(`${table} is append-only`);
    if (engine === 'postgres') expect(await refusal(`truncate ${table} cascade`)).toContain('is append-only');
    expect(await all(`select * from ${table}`)).toEqual(before);
  });

  it.each(HEADS)('%s: no row can be removed or emptied out', async (table) => {
    const before = await all(`select * from ${table}`);
    expect(before.length).toBeGreaterThan(0);
    expect(await refusal(`delete from ${table}`)).toContain(`${table} is append-only`);
    if (engine === 'postgres') expect(await refusal(`truncate ${table} cascade`)).toContain('is append-only');
    expect(await all(`select * from ${table}`)).toEqual(before);
  });

  it.each(['visit', 'piece', 'garment_order'])('%s: no row can be given to another patient', async (table) => {
    expect(await refusal(`update ${table} set patient_id = (select max(id) from patient)`)).toContain(`${table} is append-only`);
  });

  it('audit: a detail cannot be blanked, not even for an erasure of another clinic, nor a link be made twice', async () => {
    const blank = (erasure: string) =>
      refusal(`update audit set detail = null, salt = null, erasure_id = ${erasure} where salt is not null`);
    expect(await blank('null')).toContain('audit is append-only');
    expect(await blank("'made up'")).toContain('audit is append-only');
    expect(await refusal("update audit set link = 'another'")).toContain('audit is append-only');
    const other = `update audit set detail = null, salt = null, erasure_id = (select id from erasure) where clinic_id = '${at.stranger.clinicId}'`;
    expect(await refusal(`${other} and salt is not null`)).toContain('audit is append-only');
  });
});
