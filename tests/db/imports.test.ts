import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoClinic } from '@/app/_commands/demonstration/demo-clinic';
import { analysePatient } from '@/lib/analysis/analyse-patient';
import { readOurBundle } from '@/lib/exchange/fhir/read-bundle';
import { bundleText, patientBundle } from '@/lib/exchange/fhir/write-bundle';
import { DICTIONARY_FILE, dataDictionary, fileNameOf } from '@/lib/exchange/set/data-dictionary';
import { readSet } from '@/lib/exchange/set/read-set';
import type { SetTable } from '@/lib/exchange/set/set-table';
import { setCounter } from '@/lib/exchange/set/set-tally';
import { headerLine, linesOf, SET_TABLES } from '@/lib/exchange/set/write-set';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import type { Observation } from '@/lib/observations/observation';
import { type PatientFile, recordOfFile } from '@/lib/record/patient-file';
import { WORK_KINDS } from '@/lib/schedule/worklist';
import { addDays, calendarDay, showDay } from '@/lib/units/calendar-day';
import { byFhir, byMedplum, byOwnRules } from '@/tests/lib/exchange/fhir/validators';
import { anyFile } from '@/tests/properties/made-up-files';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { visitOn } from './made-up-records';

const TODAY = calendarDay('2026-11-25');
const NOW = new Date('2026-11-25T12:00:00Z');
const form = () => crypto.randomUUID();
const UPLOAD = { fileName: 'made up.csv', form: 'spreadsheet', text: 'place,2026-03-02\n0,21.5\n' } as const;

/** A file without what differs from clinic to clinic: ids, and who wrote it when. */
function plain(file: PatientFile): unknown {
  const place = new Map(file.visits.map(({ id }, index) => [id, index]));
  const cutFrom = <T extends { readonly cutFromVisitId: string | null }>(one: T) => ({
    ...one,
    cutFromVisitId: place.get(one.cutFromVisitId ?? ''),
  });
  return {
    ...file,
    visits: file.visits.map((visit) => ({ ...visit, id: place.get(visit.id) })),
    pieces: file.pieces.map(cutFrom),
    orders: file.orders.map(cutFrom),
    cautions: [...file.cautions].sort((one, other) => one.card.localeCompare(other.card)),
    writings: [],
  };
}

describe.each(ENGINES)('what is brought in, on %s', (engine) => {
  let at: ClinicOn;
  let files: readonly PatientFile[];
  const analysis = (file: PatientFile) => analysePatient(recordOfFile(file), DEFAULT_POLICY, TODAY);

  beforeAll(async () => {
    at = await clinicOn(engine);
    const { seedPatient } = await import('@/app/_commands/demonstration/seed-patient');
    for (const one of demoClinic(TODAY).patients) await seedPatient(at.therapist, one);
    const out = [];
    for await (const { file } of at.db.files.everyPatientFile(at.therapist)) out.push(file);
    files = out;
  });
  afterAll(async () => at?.close());

  /** Patients come in the order of their ids, which differ from run to run: one with both limbs taped and something due. */
  function twoLegged(): PatientFile {
    const found = files.find(({ details }) => details.name === 'Mira Oduya');
    if (!found) throw new Error('Mira Oduya is gone from the demonstration clinic.');
    return found;
  }

  async function bring(patients: readonly PatientFile[], therapist = at.stranger): Promise<string> {
    const id = await at.db.imports.keepUpload(therapist, UPLOAD);
    await at.db.imports.lineUp(therapist, id, patients);
    while ((await at.db.imports.bringInNext(therapist, id, 4, NOW)) > 0);
    return id;
  }

  async function out(therapist = at.stranger): Promise<readonly unknown[]> {
    const all = [];
    for await (const { file } of at.db.files.everyPatientFile(therapist)) all.push(plain(file));
    return all.sort((one, other) => JSON.stringify(one).localeCompare(JSON.stringify(other)));
  }

  it('every bundle of the demonstration clinic passes both validators and our own rules', () => {
    expect(files.length).toBe(demoClinic(TODAY).patients.length);
    for (const file of files) {
      const bundle = JSON.parse(
        bundleText(
          patientBundle(file, analysis(file), '2026-11-25T12:00:00Z', {
            patientId: file.details.reference,
            clinic: { id: 'c', name: 'Clinic', timeZone: 'Europe/London' },
          }),
        ),
      );
      const faults = [
        ...byFhir(bundle),
        ...byOwnRules(bundle),
        ...bundle.entry.flatMap(({ resource }: { resource: Parameters<typeof byMedplum>[0] }) => byMedplum(resource)),
      ];
      expect(faults).toEqual([]);
    }
  });

  it('the demonstration clinic goes out as a set and as bundles and comes into another clinic with nothing lost', async () => {
    const style = { research: false, defused: true };
    const parts = files.map((file, index) => ({ subjectId: `S${index}`, file, analysis: () => analysis(file) }));
    const counter = setCounter();
    const lines = (table: SetTable) => parts.map((part) => counter.noted(table, part, linesOf(table, part, style))).join('');
    const tables = SET_TABLES.map((table) => [fileNameOf(table), headerLine(table, style) + lines(table)] as const);
    const set = readSet(new Map([...tables, [DICTIONARY_FILE, JSON.stringify(dataDictionary(style, TODAY, counter.tally()))]]));
    if (set.kind !== 'read') throw new Error(JSON.stringify(set.fault));
    const half = Math.ceil(files.length / 2);
    const bundles = files.slice(half).map((file) => {
      const read = readOurBundle(
        JSON.parse(
          bundleText(
            patientBundle(file, analysis(file), '2026-11-25T12:00:00Z', {
              patientId: file.details.reference,
              clinic: { id: 'c', name: 'Clinic', timeZone: 'Europe/London' },
            }),
          ),
        ),
      );
      if (read.kind !== 'read') throw new Error(read.reason);
      return read.files[0] as PatientFile;
    });
    const first = await bring(set.patients.slice(0, half));
    const second = await bring(bundles);
    expect((await at.db.readingImports.importWithCounts(at.stranger, first))?.counts).toEqual({ new: half });
    expect((await at.db.readingImports.importWithCounts(at.stranger, second))?.counts).toEqual({ new: files.length - half });
    expect(await out()).toEqual(await out(at.therapist));
  });

  it('the same file once more adds nothing', async () => {
    const before = await out();
    const again = await bring(files);
    expect((await at.db.readingImports.importWithCounts(at.stranger, again))?.counts).toEqual({ same: files.length });
    expect(await out()).toEqual(before);
  });

  it('a later file of a known patient adds only the visits that are new, and undo takes just those back', async () => {
    const before = await out();
    const known = twoLegged();
    const later = {
      ...known.visits[0],
      ...visitOn('2026-11-20'),
      id: 'later',
      ladders: known.visits[0]?.ladders ?? [],
    } as PatientFile['visits'][number];
    const id = await bring([{ ...known, visits: [...known.visits, later] }]);
    expect((await at.db.readingImports.importWithCounts(at.stranger, id))?.counts).toEqual({ extended: 1 });
    expect(await out()).not.toEqual(before);
    expect(await at.db.undo.undoImport(at.stranger, id)).toEqual({ undone: 1, stayed: [] });
    expect(await out()).toEqual(before);
  });

  it('another visit of the same day with other figures refuses the whole patient, with the day', async () => {
    const before = await out();
    const known = twoLegged();
    const [visit, ...rest] = known.visits;
    if (!visit) throw new Error('no visit');
    const id = await bring([{ ...known, visits: [{ ...visit, ladders: visit.ladders.slice(0, 1), weight: null, height: null }, ...rest] }]);
    const { counts, worded } = (await at.db.readingImports.importWithCounts(at.stranger, id)) ?? {};
    expect(counts).toEqual({ refused: 1 });
    expect(worded?.[0]?.words).toContain(known.details.reference);
    expect(await out()).toEqual(before);
  });

  it('a whole import is undone: references are free again, and it can be brought in once more', async () => {
    const made = fc
      .sample(anyFile, { numRuns: 12, seed: 31 })
      .map((file, index) => ({ ...file, details: { ...file.details, reference: `NEW-${index}` } }));
    const before = await out();
    const id = await bring(made);
    expect((await at.db.readingImports.importWithCounts(at.stranger, id))?.counts).toEqual({ new: 12 });
    const with12 = await out();
    expect(with12.length).toBe(before.length + 12);
    expect(await at.db.undo.undoImport(at.stranger, id)).toEqual({ undone: 12, stayed: [] });
    expect(await out()).toEqual(before);
    expect((await at.db.find.findPatients(at.stranger, 'NEW-')).total).toBe(0);
    await bring(made);
    expect(await out()).toEqual(with12);
  });

  it('an observation that cannot be refuses its patient by name; one of a clinic’s own kind stays out with a word', async () => {
    const known = twoLegged();
    const itch: Observation = {
      ...{ kind: 'itch', version: '1', day: calendarDay('2026-11-20'), figures: { itch: 3 }, choice: null, side: null },
      ...{ place: null, gone: null, rater: null, words: null },
    };
    const bringLooked = async (reference: string, observations: readonly Observation[]) => {
      const id = await bring([{ ...known, details: { ...known.details, reference }, observations }]);
      const { counts, worded } = (await at.db.readingImports.importWithCounts(at.stranger, id)) ?? {};
      const [head] = (await at.db.find.findPatients(at.stranger, reference)).rows;
      const kept = head && (await at.db.records.recordOf(at.stranger, head.patientId))?.observations.map(({ kind }) => kind);
      if (head) await at.db.undo.undoImport(at.stranger, id);
      return { counts, words: worded?.map(({ words }) => words).join(), kept };
    };
    const { born } = known.details;
    for (const [wrong, why] of [
      [{ ...itch, day: addDays(born, -1) }, 'day: '],
      [{ ...itch, day: calendarDay('2999-01-01') }, 'day: '],
      [{ ...itch, gone: calendarDay('2026-11-19') }, 'gone: '],
      [{ ...itch, figures: { itch: 11 } }, 'item-itch: From 0 to 10'],
    ] as const) {
      const { counts, words, kept } = await bringLooked('ODD-1', [itch, wrong]);
      expect(counts).toEqual({ refused: 1 });
      expect(words).toContain(`ODD-1, Itch of ${showDay(wrong.day)}, ${why}`);
      expect(kept).toBeUndefined();
    }
    expect(await bringLooked('OWN-1', [itch])).toEqual({ counts: { new: 1 }, words: '', kept: ['itch'] });
    const own = await bringLooked('OWN-2', [itch, { ...itch, kind: 'own-1', figures: { figure: 31 } }]);
    expect(own).toMatchObject({ counts: { new: 1 }, kept: ['itch'] });
    expect(own.words).toMatch(/^OWN-2: One observation of a kind .* stayed out/);
  });

  it('a patient who was worked on since stays, and is named', async () => {
    const [file] = fc
      .sample(anyFile, { numRuns: 1, seed: 77 })
      .map((one) => ({ ...one, details: { ...one.details, reference: 'STAY-1' }, phases: [] }));
    const id = await bring([file as PatientFile]);
    const [head] = (await at.db.find.findPatients(at.stranger, 'STAY-1')).rows;
    await at.db.visits.saveVisit(at.stranger, { patientId: head?.patientId ?? '', submissionId: form(), visit: visitOn('2026-11-24') });
    expect(await at.db.undo.undoImport(at.stranger, id)).toEqual({ undone: 0, stayed: ['STAY-1'] });
    expect((await at.db.find.findPatients(at.stranger, 'STAY-1')).total).toBe(1);
  });

  it('lines and dates of a patient who was taken back leave the worklist', async () => {
    const known = { ...twoLegged(), details: { ...twoLegged().details, reference: 'GONE-1' } };
    const countsNow = async () => {
      await at.db.renew.refreshStale(at.stranger, TODAY);
      return at.db.counts.workTotals(at.stranger, TODAY, addDays(TODAY, 400), ['all', ...WORK_KINDS]);
    };
    const before = await countsNow();
    const id = await bring([known]);
    expect(await countsNow()).not.toEqual(before);
    await at.db.undo.undoImport(at.stranger, id);
    expect(await countsNow()).toEqual(before);
  });

  it('stopped, it takes nothing more over, and nobody else’s import is seen', async () => {
    const id = await at.db.imports.keepUpload(at.stranger, UPLOAD);
    await at.db.imports.lineUp(at.stranger, id, files);
    await at.db.imports.stopImport(at.stranger, id);
    expect(await at.db.imports.bringInNext(at.stranger, id, 9)).toBe(0);
    expect((await at.db.readingImports.importWithCounts(at.stranger, id))?.state).toBe('stopped');
    expect(await at.db.readingImports.importWithCounts(at.therapist, id)).toBeUndefined();
    expect(await at.db.undo.undoImport(at.therapist, id)).toBeUndefined();
  });

  it('a file is kept only until its patients are in line; twice in line is once; a reader may not', async () => {
    const id = await at.db.imports.keepUpload(at.therapist, UPLOAD);
    expect(await at.db.imports.uploadOf(at.stranger, id)).toBeUndefined();
    expect(await at.db.imports.uploadOf(at.therapist, id)).toMatchObject({ text: UPLOAD.text, mapping: null });
    const [file] = fc.sample(anyFile, { numRuns: 1, seed: 5 });
    await at.db.imports.lineUp(at.therapist, id, [file as PatientFile]);
    await at.db.imports.lineUp(at.therapist, id, [file as PatientFile]);
    expect(await at.db.imports.uploadOf(at.therapist, id)).toBeUndefined();
    expect((await at.db.readingImports.importWithCounts(at.therapist, id))?.counts).toEqual({ waiting: 1 });
    await expect(at.db.imports.keepUpload(at.reader, UPLOAD)).rejects.toThrow();
  });
});
