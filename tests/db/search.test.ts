import fs from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { calendarDay } from '@/lib/units/calendar-day';
import { seeded } from '@/tests/cohort/random';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details } from './made-up-records';

const NAMES = [
  'Mira Oduya',
  'Åsa Ångström-Łuk',
  'Ωμέγα  Παπα',
  'Li',
  null,
  'Maximiliana Featherstonehaughwaite of the Long Meadow',
  "O'Neil 100%_sure",
  '😀 Smiley',
  'ana ana ana',
];

describe.each(ENGINES)('search on %s', (engine) => {
  let at: ClinicOn;
  let runSql: typeof import('@/db/sql/run-sql').runSql;
  const random = seeded(41);

  beforeAll(async () => {
    at = await clinicOn(engine);
    ({ runSql } = await import('@/db/sql/run-sql'));
    for (const [index, name] of NAMES.entries())
      await at.db.patients.addPatient(at.therapist, { submissionId: `s${index}`, details: details(`Ref-${index}/X`, name) });
    await at.db.patients.addPatient(at.stranger, { submissionId: 'other', details: details('Ref-0/X', 'Mira of another clinic') });
  });
  afterAll(async () => at?.close());

  const rows = async <T>(statement: string) => runSql<T>(await at.db.client.getDatabase(), statement);
  const parts = () => rows('select clinic_id, part, patient_id from search_part order by patient_id, part, clinic_id');

  /** What a reading of every name finds: each word stands in reference or name, as it is typed but for its signs. */
  async function expected(search: string): Promise<string[]> {
    const all = await rows<{ id: string; text: string }>(
      `select id, search_text as text from patient where clinic_id = '${at.therapist.clinicId}' and revision > 0`,
    );
    const words = search
      .toLowerCase()
      .split(/\s+/)
      .map((word) => word.replace(/[%_\\]/g, ''));
    return all.filter(({ text }) => words.every((word) => text.includes(word))).map(({ id }) => id);
  }

  async function found(search: string): Promise<string[]> {
    const { rows: heads, total } = await at.db.find.findPatients(at.therapist, search, 1, 5000);
    expect(total).toBe(heads.length);
    return heads.map(({ patientId }) => patientId);
  }

  async function findsTheSame(search: string): Promise<void> {
    expect((await found(search)).sort(), search).toEqual((await expected(search)).sort());
  }

  /** Stretches of what is there, and stretches with a letter wrong. */
  async function stretches(howMany: number): Promise<string[]> {
    const texts = (await rows<{ text: string }>('select search_text as text from patient')).map(({ text }) => [...text]);
    return Array.from({ length: howMany }, (_, turn) => {
      const text = random.pick(texts);
      const from = Math.floor(random.uniform() * text.length);
      const stretch = text.slice(from, from + 1 + Math.floor(random.uniform() * 24));
      if (turn % 3 === 0) stretch[Math.floor(random.uniform() * stretch.length)] = 'q';
      return stretch.join('');
    });
  }

  it('finds what a reading of every name finds, wherever in a word it begins and however long it is', async () => {
    for (const search of [
      '',
      'mira',
      'IRA',
      'ref-',
      'x mira',
      '100%_s',
      '%',
      'stonehaughwaite',
      'featherstonehaughwaiter',
      'ΠΑΠΑ',
      '😀',
      'ana',
    ])
      await findsTheSame(search);
    for (const search of await stretches(60)) await findsTheSame(search);
  });

  it('keeps in step with a name that changes, a patient who is erased and one who is taken back', async () => {
    const [patientId = ''] = await found('mira');
    const changed = { submissionId: 'renamed', details: details('Ref-0/X', 'Noor Haddad'), reason: 'married' };
    expect((await at.db.patients.revisePatient(at.therapist, patientId, 1, changed)).kind).toBe('saved');
    expect(await found('mira')).toEqual([]);
    expect(await found('hadd')).toEqual([patientId]);
    const { erasePatient } = await import('@/db/erasure/erase-patient');
    await erasePatient(at.therapist, patientId, 'asked for');
    expect(await rows(`select part from search_part where patient_id = '${patientId}'`)).toEqual([]);
    expect(await found('hadd')).toEqual([]);
  });

  it('finds the same where a word is few patients’, and where it is more than are gone through one by one', async () => {
    const { bulkClinic } = await import('@/tests/bulk-clinic');
    await bulkClinic(at.therapist, 1200, calendarDay('2026-11-25'));
    for (const search of ['person', 'person 1200', 'b-00', 'b-001200', 'hazel', 'mil person']) await findsTheSame(search);
    const second = await at.db.find.findPatients(at.therapist, 'person', 2);
    expect([second.total, second.pages, second.rows[0]?.reference]).toEqual([1200, 24, 'B-000051']);
  }, 60_000);

  it('is checked against references and names: a lost part and a foreign one are said, with the patient, and put right', async () => {
    const { checkSearch, mendSearch } = await import('@/db/upkeep/check-search');
    const { checkData } = await import('@/db/upkeep/check-data');
    const database = await at.db.client.getDatabase();
    const kept = await parts();
    expect((await checkSearch(database)).problems).toEqual([]);
    const [patientId = ''] = await found('smiley');
    const [other = ''] = await found('featherstone');
    const { clinicId } = at.therapist;
    await rows(`delete from search_part where patient_id = '${patientId}' and part = 'smiley' returning part`);
    // Of another text, the middle of a text cut short, of a patient who is in another clinic, of nobody.
    for (const [clinic, part, patient] of [
      [clinicId, 'mira oduya', other],
      [clinicId, 'feather', other],
      [at.stranger.clinicId, 'smiley', patientId],
      [clinicId, 'smiley', 'nobody'],
    ])
      await rows(`insert into search_part values ('${clinic}', '${part}', '${patient}') returning part`);
    expect(await found('smiley')).toEqual([]);
    const { looked, problems } = await checkSearch(database);
    expect(looked).toMatch(/^\d+ parts that search looks through were compared with references and names\.$/);
    expect(problems[0]).toBe(
      `Search lacks one part of the patients ${patientId} and does not find them by it: “npm run renew” puts it right.`,
    );
    expect(problems[1]).toMatch(/^Search holds 4 parts of the patients .*: “npm run renew” puts it right\.$/);
    for (const one of [patientId, other, 'nobody']) expect(problems[1]).toContain(one);
    expect((await checkData(database, [])).findings.flatMap((one) => one.problems)).toEqual(expect.arrayContaining([...problems]));
    expect(await mendSearch(database)).toBe(5);
    expect((await checkSearch(database)).problems).toEqual([]);
    expect(await parts()).toEqual(kept);
    expect(await found('smiley')).toEqual([patientId]);
    expect(await mendSearch(database)).toBe(0);
  }, 60_000);

  it('an older database is given the same parts as the triggers keep', async () => {
    const kept = await parts();
    expect(kept.length).toBeGreaterThan(1000);
    const file = path.resolve(import.meta.dirname, `../../db/migrations/${engine}/0022_search-part.sql`);
    const fill = fs
      .readFileSync(file, 'utf8')
      .split('--> statement-breakpoint')
      .find((one) => one.trim().startsWith('INSERT'));
    await rows(engine === 'sqlite' ? 'delete from search_part returning part' : 'delete from search_part');
    await rows(engine === 'sqlite' ? `${fill?.trim().replace(/;$/, '')} returning part` : (fill ?? ''));
    expect(await parts()).toEqual(kept);
  });
});
