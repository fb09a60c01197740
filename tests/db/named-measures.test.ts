import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readLaddersCsv } from '@/lib/exchange/read-ladders-csv';
import { patientFileOf } from '@/lib/exchange/spreadsheet/read-spreadsheet';
import { writeLaddersCsv } from '@/lib/exchange/write-ladders-csv';
import { ownMeasureOfCell } from '@/lib/parts/own-measure-schema';
import { type PatientFile, recordOfFile } from '@/lib/record/patient-file';
import type { NamedMeasure } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { file as laddersFile, row, THREE } from '@/tests/lib/exchange/files';
import { backByBundle, backBySet } from './back-by';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, length, visitOn } from './made-up-records';

const TODAY = calendarDay('2026-11-25');
const form = () => crypto.randomUUID();
const measured = (cells: Parameters<typeof row>[0]) => row({ zero: '', affected: '', distance: '', ...cells });

/** A clinic's own measure, its definition in the cell that names it. */
const OWN = 'own-0a1b2c3d4e5f | cheek girth | head | girth | middle | 300 | 800 | 4 | Level over both cheeks. | Our leaflet 3.';

/** A ladders file of one patient: a leg, a hand that is affected, a foot in inches, a neck, and a measure that a clinic added. */
const FILE = laddersFile(
  ...THREE,
  measured({ limb: 'hand', landmark: 'hand-girth', girth: '18.7', affected: 'yes' }),
  measured({ limb: 'foot', side: 'right', landmark: 'foot-length', girth: '9 1/2', unit: 'in', note: 'standing' }),
  measured({ limb: 'trunk', side: 'middle', landmark: 'neck-girth', girth: '"33,5"' }),
  measured({ limb: 'head', side: 'middle', landmark: OWN, girth: '51.5' }),
);

describe.each(ENGINES)('named measures of a visit on %s', (engine) => {
  let at: ClinicOn;
  let patientId: string;

  beforeAll(async () => {
    at = await clinicOn(engine);
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('NM-1') });
    patientId = 'patientId' in added ? added.patientId : '';
  });
  afterAll(async () => at?.close());

  async function bring(files: readonly PatientFile[], therapist = at.therapist): Promise<void> {
    const id = await at.db.imports.keepUpload(therapist, { fileName: 'made up.csv', form: 'set', text: '' });
    await at.db.imports.lineUp(therapist, id, files);
    while ((await at.db.imports.bringInNext(therapist, id, 4)) > 0);
    const { counts } = (await at.db.readingImports.importWithCounts(therapist, id)) ?? {};
    expect(counts).toEqual({ new: files.length });
  }

  async function outgoing(reference: string, therapist = at.therapist): Promise<PatientFile> {
    for await (const { file } of at.db.files.everyPatientFile(therapist)) if (file.details.reference === reference) return file;
    throw new Error(`${reference} is not there`);
  }

  function recordsIn(text: string) {
    const read = readLaddersCsv(text, TODAY, 'kept');
    if (read.kind === 'fault') throw new Error(read.fault.reason);
    return read.records;
  }

  it('are read back as typed, and a correction keeps both states', async () => {
    const typed = visitOn('2026-10-14');
    const saved = await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: typed });
    const visitId = 'visitId' in saved ? saved.visitId : '';
    expect((await at.db.reading.keptVisit(at.therapist, visitId))?.measures).toEqual(typed.measures);
    const [first] = typed.measures ?? [];
    const measures = [{ ...first, length: length('8 1/2', 'in', 215_900_000) } as NamedMeasure];
    await at.db.visits.reviseVisit(at.therapist, visitId, 1, { submissionId: form(), visit: { ...typed, measures }, reason: 'a slip' });
    const { measures: _gone, ...none } = typed;
    await at.db.visits.reviseVisit(at.therapist, visitId, 2, { submissionId: form(), visit: none, reason: 'not taken at all' });
    const history = await at.db.reading.visitWithHistory(at.therapist, visitId);
    expect(history?.revisions.map((one) => one.measures)).toEqual([typed.measures, measures, undefined]);
    const [visit] = (await at.db.records.recordOf(at.therapist, patientId))?.visits ?? [];
    expect(visit && 'measures' in visit).toBe(false);
  });

  it('a visit without a ladder is kept with its measures alone', async () => {
    const { measures } = visitOn('2026-10-15');
    const visit = { ...visitOn('2026-10-15'), ladders: [] };
    const saved = await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit });
    const kept = await at.db.reading.keptVisit(at.therapist, 'visitId' in saved ? saved.visitId : '');
    expect([kept?.ladders, kept?.measures]).toEqual([[], measures]);
  });

  it('a clinic’s own measures and forms are of that clinic alone, and each change is a deed', async () => {
    const [{ OWN_MEASURES_KEY, OWN_FORMS_KEY, ownPartsOf }, { changeSetting, historyOfSetting }] = await Promise.all([
      import('@/db/clinic/own-parts'),
      import('@/db/clinic/clinic'),
    ]);
    const own = ownMeasureOfCell(OWN);
    const listed = own ? { ...own, asked: true } : undefined;
    const hood = {
      id: 'own-ffffffffffff',
      words: 'hood with sleeve',
      ladders: 'arm',
      measures: [own?.id],
      own: [own],
      leadDays: 14,
      lifeDays: 90,
    };
    await changeSetting(at.therapist, { key: OWN_MEASURES_KEY, value: [listed], reason: 'a named measure added' });
    await changeSetting(at.therapist, { key: OWN_FORMS_KEY, value: [{ ...hood, asked: false }], reason: 'retired' });
    expect(await ownPartsOf(at.therapist)).toEqual({ measures: [listed], forms: [{ ...hood, asked: false }] });
    expect(await ownPartsOf(at.stranger)).toEqual({ measures: [], forms: [] });
    expect((await historyOfSetting(at.therapist, OWN_FORMS_KEY)).map(({ reason }) => reason)).toEqual(['retired']);
    await expect(changeSetting({ ...at.therapist, role: 'read-only' }, { key: OWN_FORMS_KEY, value: [], reason: null })).rejects.toThrow();
  });

  it('affected parts stay when a form that does not speak of them corrects the patient', async () => {
    const head = await at.db.patients.patientHead(at.therapist, patientId);
    if (!head) throw new Error('no patient');
    const { patientId: _id, revision, affectedParts, ...said } = head;
    const revised = { submissionId: form(), details: { ...said, note: 'moved house' }, reason: null };
    expect((await at.db.patients.revisePatient(at.therapist, patientId, revision, revised)).kind).toBe('saved');
    expect((await at.db.records.recordOf(at.therapist, patientId))?.affectedParts).toEqual(affectedParts);
    expect(affectedParts).toEqual([{ part: 'foot', side: 'right' }]);
  });

  it('a ladders file comes in, goes out as a ladders file, a set and a bundle, and each comes back the same', async () => {
    const [record] = recordsIn(FILE);
    if (!record) throw new Error('nobody');
    await bring([patientFileOf(record, 'other')]);
    const file = await outgoing(record.reference);
    expect(file.visits.map(({ measures }) => measures)).toEqual(record.visits.map(({ measures }) => measures));
    expect(file.visits[0]?.measures?.map(({ own }) => own?.name)).toEqual([undefined, undefined, undefined, 'cheek girth']);
    expect(file.details.affectedParts).toEqual([{ part: 'hand', side: 'left' }]);
    const [again] = recordsIn(writeLaddersCsv([recordOfFile(file)]));
    expect(again).toEqual(record);

    const renamed = (one: PatientFile, reference: string) => [{ ...one, details: { ...one.details, reference } }];
    await bring(renamed(backBySet(file), 'BY-SET'), at.stranger);
    await bring(renamed(backByBundle(file), 'BY-BUNDLE'), at.stranger);
    const same = ({ details: { reference, ...rest }, visits }: PatientFile) => ({ rest, visits: visits.map(({ id, ...visit }) => visit) });
    expect(same(await outgoing('BY-SET', at.stranger))).toEqual(same(file));
    expect(same(await outgoing('BY-BUNDLE', at.stranger))).toEqual(same(file));
  });

  it('a measure altered behind the program’s back is seen by the check of the data', async () => {
    const { checkData } = await import('@/db/upkeep/check-data');
    const { runSql } = await import('@/db/sql/run-sql');
    const { eq, sql } = await import('drizzle-orm');
    const database = await at.db.client.getDatabase();
    const problems = async () => (await checkData(database, [])).findings.flatMap((one) => one.problems);
    expect(await problems()).toEqual([]);
    const { visitRevision } = at.db.schema;
    if (engine === 'postgres') await runSql(database, 'alter table visit_revision disable trigger all');
    else
      for (const { name } of await runSql<{ name: string }>(
        database,
        `select name from sqlite_master where type = 'trigger' and tbl_name = 'visit_revision'`,
      ))
        database.run(sql.raw(`drop trigger "${name}"`));
    const [one] = (await database.select().from(visitRevision)).filter(({ measures }) => measures);
    if (!one?.measures) throw new Error('no measure');
    const measures = one.measures.map((taken) => ({ ...taken, length: length('1', 'cm', 10_000_000) }));
    await database.update(visitRevision).set({ measures }).where(eq(visitRevision.id, one.id));
    expect((await problems()).join(' ')).toContain(one.id);
  });
});
