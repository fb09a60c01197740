import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { serviceFigures } from '@/lib/service/service-figures';
import { SERVICE_PERIODS, servicePeriod } from '@/lib/service/service-period';
import { addDays, calendarDay } from '@/lib/units/calendar-day';
import { seeded } from '@/tests/cohort/random';
import { savePaths } from '@/tests/faults/save-paths';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { pieceFrom, visitOn } from './made-up-records';
import { plantAnswers } from './planted-answers';
import { planted, plantService } from './planted-service';

const TODAY = calendarDay('2026-11-30');
const WRITES = 30;

describe.each(ENGINES)('stored counts of the service on %s', (engine) => {
  let at: ClinicOn;
  let counting: typeof import('@/db/service/service-counts');
  let storing: typeof import('@/db/service/stored-counts');
  let renewing: typeof import('@/db/service/renew-parts');
  let checking: typeof import('@/db/upkeep/check-service');
  const random = seeded(35);
  const pick = <T>(of: readonly T[]) => of[Math.floor(random.uniform() * of.length)] as T;

  beforeAll(async () => {
    at = await clinicOn(engine);
    counting = await import('@/db/service/service-counts');
    storing = await import('@/db/service/stored-counts');
    renewing = await import('@/db/service/renew-parts');
    checking = await import('@/db/upkeep/check-service');
    await plantService(at.db, at.therapist, planted().slice(0, 60));
    await plantAnswers(at.db, at.therapist, random, { errors: 1.2, comes: 0.8, kept: 0.9 });
    // Remakes are rare here.
    const few = planted().filter((_, index) => index < 240 && index % 20 < 8);
    await plantService(
      at.db,
      at.stranger,
      few.map((one) => ({ ...one, again: null })),
    );
  });
  afterAll(async () => at?.close());

  /** Counts in one order, sums of probabilities to a millionth: the database adds them as they come. */
  function inOrder(value: unknown): unknown {
    if (Array.isArray(value)) return value.map((one) => JSON.stringify(inOrder(one))).sort();
    if (typeof value === 'number') return Math.round(value * 1e6) / 1e6;
    if (value === null || typeof value !== 'object') return value;
    return Object.fromEntries(
      Object.entries(value)
        .sort(([one], [other]) => (one < other ? -1 : 1))
        .map(([key, one]) => [key, key === 'betweenRemakes' ? one : inOrder(one)]),
    );
  }

  async function expectEqual(therapist = at.therapist) {
    for (const choice of SERVICE_PERIODS) {
      const period = servicePeriod(choice, TODAY);
      const [stored, anew] = [await storing.storedServiceCounts(therapist, period), await counting.serviceCounts(therapist, period)];
      expect(inOrder(stored), choice).toEqual(inOrder(anew));
      expect(serviceFigures(stored, period).firstFitsByForm).toEqual(serviceFigures(anew, period).firstFitsByForm);
    }
  }

  const problems = async () => (await checking.checkService(await at.db.client.getDatabase())).problems;

  it('are those counted anew, before anybody is counted and after', async () => {
    expect((await renewing.uncountedOf(at.therapist, 10)).length).toBe(2);
    await expectEqual();
    await renewing.countUncounted(at.therapist);
    expect(await renewing.uncountedOf(at.therapist, 10)).toEqual([]);
    await expectEqual();
    await expectEqual(at.stranger);
    const { right, care, booked } = await storing.storedServiceCounts(at.therapist, servicePeriod('all', TODAY));
    const { betweenRemakes } = await storing.storedServiceCounts(at.stranger, servicePeriod('all', TODAY));
    for (const counts of [right.verdicts, right.misses, right.outlooks, care.excess, booked, betweenRemakes])
      expect(counts.length).toBeGreaterThan(0);
    expect(await problems()).toEqual([]);
  });

  it('stay so through every way to write and fittings, whatever was counted in between', async () => {
    const paths = savePaths(at, 'HL-0700', 'words');
    for (const path of paths) await path.write();
    const { rows } = await at.db.find.findPatients(at.therapist);
    const patientId = rows.find(({ reference }) => reference === 'HL-0700')?.patientId ?? '';
    await expectEqual();
    await renewing.countUncounted(at.therapist);
    for (let write = 0; write < WRITES; write++) {
      await pick([() => pick(paths).write(), fit, book, prompt, () => at.db.renew.refreshPatient(at.therapist, patientId, TODAY)])();
      if (write % 10 === 9) await expectEqual();
    }
    await renewing.countUncounted(at.therapist);
    expect(await renewing.uncountedOf(at.therapist, 10)).toEqual([]);
    await expectEqual();
    expect(await problems()).toEqual([]);

    /** A piece is fitted, or a fitting of it corrected. */
    async function fit() {
      const pieces = (await at.db.readingPieces.piecesOfPatients(at.therapist, [patientId])).filter((one) => one.orderId !== null);
      const piece = pick(pieces);
      if (!piece) return;
      const day = addDays(calendarDay('2026-10-20'), Math.floor(random.uniform() * 60));
      const outcome = pick(['keep', 'alter', 'remake'] as const);
      const reason = outcome === 'keep' ? null : 'girth wrong';
      const fitted = { day, zones: [], words: null, taught: false, outcome, reason } as const;
      const { pieceId, revision, ...standing } = piece;
      const entry = {
        submissionId: crypto.randomUUID(),
        piece: {
          ...pieceFrom(null, '2026-10-14', piece.piece),
          ...standing,
          delivered: addDays(day, -2),
          fit: fitted,
          firstFit: outcome === 'keep' ? day : null,
        },
        reason: 'fitted',
      };
      expect((await at.db.pieces.revisePiece(at.therapist, pieceId, revision, entry as never)).kind).toBe('saved');
    }
    async function book() {
      const day = addDays(TODAY, -Math.floor(random.uniform() * 300));
      const content = { day, time: null, what: null, state: pick(['booked', 'missed', 'cancelled'] as const) };
      const entry = { kind: 'booking', thing: crypto.randomUUID(), expected: 0, day, content, deed: 'visit booked', reason: null } as const;
      await at.db.noted.saveNoted(at.therapist, patientId, { ...entry, submissionId: crypto.randomUUID() });
      if (content.state === 'booked')
        await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: crypto.randomUUID(), visit: visitOn(day) });
    }
    async function prompt() {
      const asked = { promptKey: pick(['k', 'l']), rule: 'r', ruleVersion: '1', inputsHash: pick(['h', 'i']), inputs: {} };
      const answer = pick(['act', 'not-now', 'not-for-this-patient'] as const);
      await at.db.answers.answerPrompt(at.therapist, patientId, { ...asked, answer, until: null, reason: 'why' });
    }
  });

  it('lose who is erased and who goes with an import, and nothing else', async () => {
    const period = servicePeriod('all', TODAY);
    const before = inOrder(await storing.storedServiceCounts(at.stranger, period));
    const files = [];
    for await (const { file } of at.db.files.everyPatientFile(at.therapist)) files.push(file);
    const file = files.find(({ details }) => details.reference === 'HL-0024');
    if (!file) throw new Error('no file');
    const id = await at.db.imports.keepUpload(at.stranger, { fileName: 'a.json', form: 'set', text: 'x' });
    await at.db.imports.lineUp(at.stranger, id, [{ ...file, details: { ...file.details, reference: 'IN-1' } }]);
    while ((await at.db.imports.bringInNext(at.stranger, id, 4)) > 0);
    expect(await at.db.readingImports.importWithCounts(at.stranger, id)).toMatchObject({ counts: { new: 1 } });
    await expectEqual(at.stranger);
    await renewing.countUncounted(at.stranger);
    expect(inOrder(await storing.storedServiceCounts(at.stranger, period))).not.toEqual(before);
    expect(await at.db.undo.undoImport(at.stranger, id)).toEqual({ undone: 1, stayed: [] });
    for (const _ of [1, 2]) {
      expect(inOrder(await storing.storedServiceCounts(at.stranger, period))).toEqual(before);
      await renewing.countUncounted(at.stranger);
    }
    const { erasePatient } = await import('@/db/erasure/erase-patient');
    const { rows } = await at.db.find.findPatients(at.therapist, 'HL-0024');
    await erasePatient(at.therapist, rows[0]?.patientId ?? '', 'asked for');
    await expectEqual();
    expect(await problems()).toEqual([]);
    const { serviceCount } = at.db.schema;
    const left = await (await at.db.client.getDatabase()).select().from(serviceCount);
    expect(left.filter(({ of, clinicId }) => clinicId === at.therapist.clinicId && of.includes('glove'))).toEqual([]);
    await expectEqual(at.stranger);
  });

  it('that are not what the patients add up to, or a part that is not the record’s, are named by the check', async () => {
    const database = await at.db.client.getDatabase();
    const { serviceCount, servicePart } = at.db.schema;
    const [some] = (await database.select().from(serviceCount)).filter(({ figure }) => figure === 'verdict');
    const { eq } = await import('drizzle-orm');
    await database
      .update(serviceCount)
      .set({ sum0: 77 })
      .where(eq(serviceCount.id, some?.id ?? ''));
    expect(await problems()).toEqual([expect.stringContaining(`the count “verdict ${some?.at} `)]);
    await database
      .update(serviceCount)
      .set({ sum0: some?.sum0 ?? 0 })
      .where(eq(serviceCount.id, some?.id ?? ''));
    expect(await problems()).toEqual([]);
    await database.update(servicePart).set({ parts: [] });
    expect((await problems()).join(' ')).toMatch(/the stored part of the patient [0-9a-f-]+ differs from the record/);
  });
});
