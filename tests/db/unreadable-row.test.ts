import type BetterSqlite from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PatientFile } from '@/lib/record/patient-file';
import { calendarDay } from '@/lib/units/calendar-day';
import { type ClinicOn, clinicOn } from './clinic-on';
import { details, visitOn } from './made-up-records';

describe.each(['{broken', '5'])('a ladder whose rungs read %s in the file', (damage) => {
  let at: ClinicOn;

  beforeAll(async () => {
    at = await clinicOn('sqlite');
    for (const reference of ['HL-1', 'HL-2', 'HL-3']) {
      const added = await at.db.patients.addPatient(at.therapist, { submissionId: reference, details: details(reference) });
      const patientId = 'patientId' in added ? added.patientId : '';
      await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: `v ${reference}`, visit: visitOn('2026-10-14') });
    }
    const file = ((await at.db.client.getDatabase()) as unknown as { $client: BetterSqlite.Database }).$client;
    file.exec('drop trigger ladder_refuses_update');
    file
      .prepare(
        `update ladder set rungs = ? where visit_revision_id in (select r.id from visit_revision r join visit v on v.id = r.visit_id
         join patient p on p.id = v.patient_id where p.reference_key = 'hl-2')`,
      )
      .run(damage);
  });
  afterAll(async () => at?.close());

  it('leaves the other patients in the worklist', async () => {
    await at.db.renew.refreshStale(at.therapist, calendarDay('2026-11-25'));
    const states = await (await at.db.client.getDatabase()).select().from(at.db.schema.workState);
    expect(states.map((one) => one.renewedFor).sort()).toEqual(['2026-11-25', '2026-11-25', null]);
  });

  it('is found by the check of the data, in a sentence', async () => {
    const { checkData } = await import('@/db/upkeep/check-data');
    const { findings } = await checkData(await at.db.client.getDatabase(), []);
    expect(findings.flatMap((one) => one.problems).join(' ')).toMatch(
      /The row [0-9a-f-]+ of ladder (has a value in rungs that cannot be read|is not as row)/,
    );
  });
});

it('a patient whose details cannot be read is named in the list, beside the others in their order', async () => {
  const at = await clinicOn('sqlite');
  try {
    const ids: string[] = [];
    for (const reference of ['HL-1', 'HL-2', 'HL-3']) {
      const added = await at.db.patients.addPatient(at.therapist, { submissionId: reference, details: details(reference) });
      ids.push('patientId' in added ? added.patientId : '');
    }
    const file = ((await at.db.client.getDatabase()) as unknown as { $client: BetterSqlite.Database }).$client;
    file.exec('drop trigger patient_revision_refuses_update');
    file.prepare("update patient_revision set affected = '{' where patient_id = ?").run(ids[1]);
    const page = await at.db.find.findPatients(at.therapist);
    expect(page.rows.map(({ patientId }) => patientId)).toEqual([ids[0], ids[2]]);
    expect(page).toMatchObject({ damaged: [ids[1]], total: 3, pages: 1 });
  } finally {
    await at.close();
  }
});

it('a patient that cannot be read is named, and the others go out', async () => {
  const { readEach } = await import('@/db/sql/read-each');
  const read = async (some: readonly string[]) => some.map((one) => JSON.parse(one) as number);
  expect(await readEach(['1', '{', '3'], read)).toEqual({ read: [1, 3], failed: ['{'] });
  const lost = async () => {
    throw new Error('connection lost');
  };
  await expect(readEach(['1'], lost)).rejects.toThrow('connection lost');
});

it.each(['{broken', '5', '{"details":{}}'])(
  'a patient of an import whose kept row reads %s is refused by name, and the others come in',
  async (damage) => {
    const at = await clinicOn('sqlite');
    try {
      const id = await at.db.imports.keepUpload(at.therapist, { fileName: 'three.csv', form: 'spreadsheet', text: 'x' });
      const files = ['IN-1', 'IN-2', 'IN-3'].map((reference) => fileOf(reference));
      await at.db.imports.lineUp(at.therapist, id, files);
      const file = ((await at.db.client.getDatabase()) as unknown as { $client: BetterSqlite.Database }).$client;
      file.prepare("update import_item set content = ? where reference = 'IN-2'").run(damage);
      expect(await at.db.imports.bringInNext(at.therapist, id, 9)).toBe(3);
      expect(await at.db.imports.bringInNext(at.therapist, id, 9)).toBe(0);
      const found = await at.db.readingImports.importWithCounts(at.therapist, id);
      expect(found?.counts).toEqual({ new: 2, refused: 1 });
      expect(found?.worded).toMatchObject([{ reference: 'IN-2', words: expect.stringContaining('cannot be read any more') }]);
    } finally {
      await at.close();
    }
  },
);

function fileOf(reference: string): PatientFile {
  const { ladders, ...measured } = visitOn('2026-10-14');
  const visit = {
    ...measured,
    id: `visit of ${reference}`,
    ladders: ladders.map((one) => ({ ...one, intervalText: one.intervalText ?? null })),
  };
  return { details: details(reference), visits: [visit], pieces: [], orders: [], events: [], phases: [], cautions: [], writings: [] };
}
