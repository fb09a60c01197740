import fs from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { retainedUntil } from '@/lib/record/retained-until';
import { calendarDay } from '@/lib/units/calendar-day';
import { savePaths } from '@/tests/faults/save-paths';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, visitOn } from './made-up-records';

/** Words that stand in every free text of the patient who goes, and nowhere else. */
const WORDS = 'Quillfeather';
const REFERENCE = 'HL-ZZ-4711';
const form = () => crypto.randomUUID();

describe.each(ENGINES)('the erasure of a patient on %s', (engine) => {
  let at: ClinicOn;
  let patientId: string;
  let staysId: string;
  let erasing: typeof import('@/db/erasure/erase-patient');
  let checking: typeof import('@/db/upkeep/check-data');
  let asking: typeof import('@/db/sql/run-sql');

  beforeAll(async () => {
    at = await clinicOn(engine);
    erasing = await import('@/db/erasure/erase-patient');
    checking = await import('@/db/upkeep/check-data');
    asking = await import('@/db/sql/run-sql');
    for (const path of savePaths(at, REFERENCE, WORDS)) await path.write();
    await at.db.links.openSharedPage((await at.db.links.openLink(at.therapist, await pageId())) ?? '');
    await broughtIn();
    const stays = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0002', 'Stays here') });
    staysId = 'patientId' in stays ? stays.patientId : '';
    await at.db.visits.saveVisit(at.therapist, { patientId: staysId, submissionId: form(), visit: visitOn('2026-10-14') });
    await at.db.renew.refreshPatient(at.therapist, staysId, calendarDay('2026-11-25'));
  });
  afterAll(async () => at?.close());

  async function pageId() {
    patientId = (await at.db.find.findPatients(at.therapist)).rows[0]?.patientId ?? '';
    return (await at.db.familyPages.familyPagesOf(at.therapist, patientId))[0]?.documentId ?? '';
  }

  /** Lines of an import: one that made the patient, one of the same reference that was refused. */
  async function broughtIn() {
    const database = await at.db.client.getDatabase();
    const { dataImport, importItem } = at.db.schema;
    const { clinicId, id: by } = at.therapist;
    const head = { id: 'i', clinicId, by, at: new Date(), fileName: 'a.csv', form: 'set', state: 'done' } as const;
    await database.insert(dataImport).values(head);
    const line = { clinicId, importId: 'i', reference: REFERENCE, words: WORDS };
    await database.insert(importItem).values([
      { ...line, id: '1', position: 0, state: 'new', patientId },
      { ...line, id: '2', position: 1, state: 'refused', reference: REFERENCE.toLowerCase() },
      { ...line, id: '3', position: 2, state: 'refused', reference: 'HL-0002', words: 'stays' },
    ]);
  }

  /** Every row of every table that says one of the words, read as text by the engine itself. */
  async function rowsSaying(...words: string[]): Promise<string[]> {
    const database = await at.db.client.getDatabase();
    const query =
      engine === 'sqlite'
        ? "select name from sqlite_master where type = 'table'"
        : "select tablename as name from pg_tables where schemaname = 'public'";
    const found: string[] = [];
    for (const { name } of await asking.runSql<{ name: string }>(database, query)) {
      const rows = await asking.runSql<Record<string, unknown>>(database, `select * from "${name}"`);
      found.push(
        ...rows.filter((row) => words.some((word) => JSON.stringify(row).toLowerCase().includes(word.toLowerCase()))).map(() => name),
      );
    }
    return found;
  }

  it('the words stand in every table that holds free text of a patient', async () => {
    expect([...new Set(await rowsSaying(WORDS, REFERENCE))].sort()).toEqual(
      [
        ...[
          'answer_outcome',
          'audit',
          'caution_answer',
          'course_revision',
          'draft',
          'due_date',
          'given_answer',
          'import_item',
          'issued_document',
          'moved_date',
          'noted_revision',
          'order_revision',
          'patient_coverage',
        ],
        ...[
          'patient_event',
          'patient',
          'patient_revision',
          'piece',
          'piece_revision',
          'prompt_answer',
          'search_part',
          'visit_revision',
          'work_line',
        ],
      ].sort(),
    );
  });

  it('is refused to anyone but a lead, and a stranger finds nobody', async () => {
    await expect(erasing.erasePatient(at.reader, patientId, 'asked for')).rejects.toThrow('Only a lead');
    expect(await erasing.erasePatient(at.stranger, patientId, 'asked for')).toBeUndefined();
    const { plannedErasures } = await import('@/db/erasure/planned-erasure');
    expect(await plannedErasures(at.stranger, REFERENCE)).toEqual([]);
    expect(await plannedErasures(at.therapist, REFERENCE.toLowerCase())).toMatchObject([
      { patientId, lastVisit: '2026-10-14', retainedUntil: '2041-02-28' },
    ]);
    expect((await at.db.records.recordOf(at.therapist, patientId))?.visits).toHaveLength(1);
  });

  it('leaves an id, who, when and why; no word of the patient; the history holds, and so does everything else', async () => {
    const database = await at.db.client.getDatabase();
    const before = await at.db.records.recordOf(at.therapist, staysId);
    const deeds = await database.$count(at.db.schema.audit);
    const erased = await erasing.erasePatient(at.therapist, patientId, 'asked for in writing');
    expect(erased?.rows).toBeGreaterThan(20);
    expect(await rowsSaying(WORDS, REFERENCE)).toEqual([]);
    expect(await at.db.patients.patientHead(at.therapist, patientId)).toBeUndefined();
    expect(await at.db.records.recordOf(at.therapist, staysId)).toEqual(before);
    expect(await database.select().from(at.db.schema.erasure)).toMatchObject([
      { patientId, by: at.therapist.id, reason: 'asked for in writing' },
    ]);
    expect(await database.$count(at.db.schema.audit)).toBe(deeds + 1);
    expect(await database.$count(at.db.schema.importItem)).toBe(1);
    const { findings } = await checking.checkData(database, []);
    expect(findings.flatMap((one) => one.problems)).toEqual([]);
    expect(findings.map((one) => one.looked).join(' ')).toContain(`The detail of ${erased?.blanked} was taken out by an erasure.`);
  });

  it('takes its lines out of the counts: what is counted is what is there', async () => {
    const database = await at.db.client.getDatabase();
    const lines = await database.select().from(at.db.schema.workLine);
    const counts = await database.select().from(at.db.schema.workCount);
    const sum = (kind: string) => counts.filter((one) => one.kind === kind).reduce((total, one) => total + one.lines, 0);
    expect(sum('patient')).toBe(lines.filter((line) => line.first).length);
    expect(sum('known')).toBe(1);
    for (const kind of new Set(lines.map((line) => line.kind))) expect(sum(kind)).toBe(lines.filter((line) => line.kind === kind).length);
  });

  it('frees the reference for another patient', async () => {
    const again = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details(REFERENCE, null) });
    expect(again.kind).toBe('saved');
  });

  it('leaves no byte of the words in the file or its log once the freed space is wiped; on a server, none in any table', async () => {
    const { wipeFreedSpace } = await import('@/db/erasure/wipe-freed-space');
    (await import('@/db/audit/audit-head')).writeWaitingHeads();
    const told = await wipeFreedSpace(await at.db.client.getDatabase(), [WORDS]);
    const files = engine === 'sqlite' ? [at.file, `${at.file}-wal`, `${at.file}.audit-head`] : [];
    const bytes = files.map((file) => fs.readFileSync(file).toString('latin1').toLowerCase()).join('');
    expect(told).toContain(engine === 'sqlite' ? 'neither reference nor name is found' : 'The space was freed.');
    expect(bytes.includes(WORDS.toLowerCase())).toBe(false);
    expect(bytes.includes('stays here')).toBe(engine === 'sqlite');
    expect(await rowsSaying(WORDS)).toEqual([]);
  });
});

describe('how long a record is kept', () => {
  // Records Management Code of Practice 2021, appendix II, as summarised by a medical defence organisation
  // (themdu.com, "Updated guidance on medical records management"): eight years; children until 25, or 26 if 17 at the end.
  it.each([
    ['an adult: eight years after the last visit', '1980-05-01', '2026-10-14', '2034-10-14'],
    ['a child: until the 25th birthday', '2016-06-30', '2026-10-14', '2041-06-30'],
    ['seventeen at the end: until the 26th birthday', '2009-01-31', '2026-10-14', '2035-01-31'],
    ['eighteen at the end: as an adult', '2008-10-14', '2026-10-14', '2034-10-14'],
  ])('%s', (_who, born, last, until) => {
    expect(retainedUntil(calendarDay(born), calendarDay(last), DEFAULT_POLICY)).toBe(until);
  });

  it('without a visit there is nothing to keep', () => {
    expect(retainedUntil(calendarDay('1980-05-01'), undefined, DEFAULT_POLICY)).toBe('1980-05-01');
  });
});
