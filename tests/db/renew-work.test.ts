import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addDays, type CalendarDay, calendarDay } from '@/lib/units/calendar-day';
import { asNanometres } from '@/lib/units/length';
import { seeded } from '@/tests/cohort/random';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, pieceFrom, visitOn } from './made-up-records';

const TODAY = calendarDay('2026-11-25');

describe.each(ENGINES)('the stored worklist on %s', (engine) => {
  let at: ClinicOn;
  const ids: string[] = [];
  const form = () => crypto.randomUUID();

  beforeAll(async () => {
    at = await clinicOn(engine);
    for (let number = 1; number <= 12; number++) ids.push(await patientWith(`HL-${number}`, number % 3 === 0 ? [] : ['2026-10-14']));
  });
  afterAll(async () => at?.close());

  async function patientWith(reference: string, days: readonly string[]): Promise<string> {
    const added = await at.db.patients.addPatient(at.therapist, {
      submissionId: form(),
      details: details(reference, `Person ${reference}`),
    });
    if (added.kind !== 'saved') throw new Error(added.kind);
    for (const day of days)
      await at.db.visits.saveVisit(at.therapist, { patientId: added.patientId, submissionId: form(), visit: visitOn(day) });
    return added.patientId;
  }

  async function linesOf(patientId: string) {
    const database = await at.db.client.getDatabase();
    return (await database.select().from(at.db.schema.workLine)).filter((line) => line.patientId === patientId);
  }

  /** The patient's lines that ask for a visit; the made-up ladder itself has readings that are asked about. */
  const visitLines = async (patientId: string) => (await linesOf(patientId)).filter((line) => line.kind === 'visit');

  const behind = async (today = TODAY) => at.db.stale.staleCount(at.therapist, await at.db.renew.workAim(at.therapist, today));

  /** The counts as the lines themselves give them, and as they are kept; noughts left out. */
  async function countedAndKept(): Promise<readonly [readonly string[], readonly string[]]> {
    const database = await at.db.client.getDatabase();
    const lines = await database.select().from(at.db.schema.workLine);
    const counted = new Map<string, number>();
    const add = (key: string) => counted.set(key, (counted.get(key) ?? 0) + 1);
    for (const line of lines) {
      add(`${line.clinicId} ${line.kind} ${line.due}`);
      if (line.first) add(`${line.clinicId} patient ${line.soonest}`);
    }
    const kept = (await database.select().from(at.db.schema.workCount)).filter((row) => row.kind !== 'known' && row.lines !== 0);
    return [
      [...counted].map(([key, n]) => `${key} ${n}`).sort(),
      kept.map((row) => `${row.clinicId} ${row.kind} ${row.due} ${row.lines}`).sort(),
    ];
  }

  it('is stale for everyone at first, and fresh for today once renewed; tomorrow it is stale again', async () => {
    expect(await behind()).toEqual({ behind: 12, patients: 12 });
    expect(await at.db.renew.refreshStale(at.therapist, TODAY)).toBe(12);
    expect(await behind()).toEqual({ behind: 0, patients: 12 });
    expect(await behind(addDays(TODAY, 1))).toEqual({ behind: 12, patients: 12 });
    expect(await at.db.renew.refreshStale(at.therapist, TODAY)).toBe(0);
  });

  it('holds a line for each thing to do: the visit 84 days after the last at ten years, the first ladder of who was never taped', async () => {
    expect(await visitLines(ids[0] ?? '')).toMatchObject([{ due: '2027-01-06', title: 'Visit', first: false }]);
    expect((await linesOf(ids[0] ?? '')).filter((line) => line.first)).toMatchObject([{ title: 'Measure the right leg again', behind: 1 }]);
    expect(await linesOf(ids[2] ?? '')).toMatchObject([
      { kind: 'visit', due: TODAY, title: 'Measure the first ladder', first: true, behind: 0 },
    ]);
  });

  it('keeps its counts in step with its lines', async () => {
    const [counted, kept] = await countedAndKept();
    expect(kept).toEqual(counted);
    expect(counted.length).toBeGreaterThan(2);
  });

  it('goes stale for one patient when their record is written to, and is made anew for that one', async () => {
    const [patientId = ''] = ids;
    await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-11-20') });
    expect(await behind()).toMatchObject({ behind: 1 });
    await at.db.renew.refreshPatient(at.therapist, patientId, TODAY);
    expect(await behind()).toMatchObject({ behind: 0 });
    expect((await linesOf(patientId)).find((line) => line.key.startsWith('visit-after'))).toMatchObject({ key: 'visit-after:2026-11-20' });
  });

  it('stores what was said of a visit once: later visits and another day add to it, and change nothing of it', async () => {
    const { givenAnswersOf } = await import('@/db/worklist/given-answers');
    const patientId = await patientWith('HL-GIVEN', ['2026-06-10', '2026-09-10']);
    const renewed = async (day: CalendarDay) => {
      await at.db.renew.refreshPatient(at.therapist, patientId, day);
      return givenAnswersOf(at.therapist, [patientId]);
    };
    const [first, ...none] = await renewed(TODAY);
    expect(none).toEqual([]);
    expect(first).toMatchObject({ revision: 1, givenOn: TODAY, outlooks: [], verdicts: [{ against: 'baseline' }, { against: 'last' }] });
    expect(await renewed(addDays(TODAY, 1))).toEqual([first]);
    await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-11-24') });
    const [still, second, ...more] = await renewed(addDays(TODAY, 2));
    expect(more).toEqual([]);
    expect(still).toEqual(first);
    expect(second).toMatchObject({ givenOn: addDays(TODAY, 2), revision: 1 });
    expect(second?.visitId).not.toBe(first?.visitId);
    expect(await givenAnswersOf(at.stranger, [patientId])).toEqual([]);
  });

  it('stores what came of it beside it: open while nobody measured since, then by the visits since; the same rows as long as those stand', async () => {
    const { outcomesOf } = await import('@/db/worklist/answer-outcomes');
    /** The made-up visit with its leg taped at eight places. */
    const taped = (day: string) => {
      const visit = visitOn(day);
      const [leg] = visit.ladders;
      const rung = leg?.rungs[0];
      if (!leg || !rung) throw new Error('no leg');
      const rungs = Array.from({ length: 8 }, (_, place) => ({
        distance: { text: String(4 * place), unit: 'cm', nm: asNanometres(40_000_000 * place) } as const,
        girth: { text: String(20 + place), unit: 'cm', nm: asNanometres(10_000_000 * (20 + place)) } as const,
      }));
      return { ...visit, ladders: [{ ...leg, unit: 'cm' as const, rungs }] };
    };
    const patientId = await patientWith('HL-CAME', []);
    const came = async (day: string) => {
      await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: taped(day) });
      await at.db.renew.refreshPatient(at.therapist, patientId, TODAY);
      return outcomesOf(at.therapist, [patientId]);
    };
    expect(await came('2026-05-10')).toEqual([]);
    expect((await came('2026-07-10')).map((one) => [one.day, one.against, one.came]).sort()).toEqual([
      ['2026-07-10', 'baseline', 'open'],
      ['2026-07-10', 'last', 'open'],
    ]);
    const after = await came('2026-09-10');
    expect(after.map((one) => [one.day, one.against, one.came, one.changed, Math.abs(one.miss ?? 999) <= 196]).sort()).toEqual([
      ['2026-07-10', 'baseline', 'confirmed', false, true],
      ['2026-07-10', 'last', 'confirmed', false, true],
      ['2026-09-10', 'baseline', 'open', null, false],
      ['2026-09-10', 'last', 'open', null, false],
    ]);
    await at.db.renew.refreshPatient(at.therapist, patientId, addDays(TODAY, 1));
    expect(await outcomesOf(at.therapist, [patientId])).toEqual(after);
    expect(await outcomesOf(at.stranger, [patientId])).toEqual([]);
  });

  it('closes the date of a visit that was made and keeps its row, so that a calendar can say so', async () => {
    const database = await at.db.client.getDatabase();
    const dates = (await database.select().from(at.db.schema.dueDate)).filter((date) => date.patientId === ids[0] && date.kind === 'visit');
    expect(dates.map(({ key, state, sequence }) => [key, state, sequence]).sort()).toEqual([
      ['visit-after:2026-10-14', 'done', 1],
      ['visit-after:2026-11-20', 'open', 0],
    ]);
  });

  it('moves a date by hand with its reason, raises its sequence, and drops the move when a visit gives a new day', async () => {
    const patientId = await patientWith('HL-80', ['2026-10-14']);
    await at.db.renew.refreshPatient(at.therapist, patientId, TODAY);
    const move = {
      key: 'visit-after:2026-10-14',
      computed: calendarDay('2027-01-06'),
      day: calendarDay('2027-01-20'),
      reason: 'on holiday',
    };
    expect(await at.db.moves.moveDate(at.stranger, patientId, move)).toBe(false);
    expect(await at.db.moves.moveDate(at.therapist, patientId, move)).toBe(true);
    await at.db.renew.refreshPatient(at.therapist, patientId, TODAY);
    const dates = async () =>
      (await (await at.db.client.getDatabase()).select().from(at.db.schema.dueDate)).filter((date) => date.patientId === patientId);
    expect(await dates()).toMatchObject([{ day: '2027-01-20', computed: '2027-01-06', sequence: 1, state: 'open' }]);
    expect(await visitLines(patientId)).toMatchObject([{ due: '2027-01-20', reason: expect.stringContaining('on holiday') }]);
    await expect(at.db.moves.moveDate(at.reader, patientId, move)).rejects.toThrow();
    await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-11-24') });
    await at.db.renew.refreshPatient(at.therapist, patientId, TODAY);
    expect((await dates()).filter((date) => date.state === 'open').map((date) => date.day)).toContain('2027-02-16');
  });

  it('never changes a moved date', async () => {
    const database = await at.db.client.getDatabase();
    const { movedDate } = at.db.schema;
    const attempt = async () => void (await database.update(movedDate).set({ reason: 'another' }));
    await expect(attempt()).rejects.toThrow();
  });

  it('rests a snoozed line until its day and shows it on that day; a declined one stays away until new data', async () => {
    const patientId = await patientWith('HL-81', ['2026-08-01']);
    await at.db.renew.refreshPatient(at.therapist, patientId, TODAY);
    const [line] = await visitLines(patientId);
    expect(line).toMatchObject({ kind: 'visit', title: 'Book the visit', due: '2026-10-24', prompt: { cause: 'visit' } });
    const given = { promptKey: 'visit', rule: 'visit-overdue', ruleVersion: '3', inputsHash: line?.prompt?.inputs ?? '', inputs: {} };
    const titles = async (today: CalendarDay) => {
      await at.db.renew.refreshPatient(at.therapist, patientId, today);
      return (await visitLines(patientId)).map((one) => one.title);
    };
    const until = calendarDay('2026-12-01');
    await at.db.answers.answerPrompt(
      at.therapist,
      patientId,
      { ...given, answer: 'not-now', until, reason: null },
      new Date('2026-11-25T10:00:00Z'),
    );
    expect(await titles(TODAY)).toEqual([]);
    expect(await titles(calendarDay('2026-11-30'))).toEqual([]);
    expect(await titles(until)).toEqual(['Book the visit']);
    const declined = { ...given, answer: 'not-for-this-patient' as const, until: null, reason: 'seen elsewhere' };
    await at.db.answers.answerPrompt(at.therapist, patientId, declined, new Date('2026-12-01T10:00:00Z'));
    expect(await titles(calendarDay('2027-03-01'))).toEqual([]);
    await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-08-08') });
    expect(await titles(calendarDay('2027-03-01'))).toContain('Book the visit');
    const again = { ...given, inputsHash: 'visit-overdue/3: 2026-08-08', until: null, reason: null };
    await at.db.answers.answerPrompt(at.therapist, patientId, { ...again, answer: 'act' }, new Date('2026-12-02T10:00:00Z'));
    expect(await titles(calendarDay('2027-03-01'))).not.toContain('Book the visit');
    await at.db.answers.answerPrompt(at.therapist, patientId, { ...again, answer: 'open-again' }, new Date('2026-12-03T10:00:00Z'));
    expect(await titles(calendarDay('2027-03-01'))).toContain('Book the visit');
  });

  it('makes everything anew when a limit of the clinic changes, and nothing in another clinic', async () => {
    await at.db.patients.addPatient(at.stranger, { submissionId: form(), details: details('HL-1') });
    await at.db.renew.refreshStale(at.stranger, TODAY);
    await at.db.renew.refreshStale(at.therapist, TODAY);
    const [before] = await visitLines(ids[0] ?? '');
    await at.db.clinic.changeSetting(at.therapist, {
      key: 'policy',
      value: { measuringDays: 10, reviewDays: [{ underYears: 200, days: 70 }] },
      reason: 'a longer queue',
    });
    const all = await behind();
    expect(all.behind).toBe(all.patients);
    expect(await at.db.stale.staleCount(at.stranger, await at.db.renew.workAim(at.stranger, TODAY))).toEqual({ behind: 0, patients: 1 });
    await at.db.renew.refreshStale(at.therapist, TODAY);
    expect((await behind()).behind).toBe(0);
    // The line is another one, under the same id: who had its answer open still has it.
    const [after] = await visitLines(ids[0] ?? '');
    expect(after?.id).toBe(before?.id);
    expect(after?.due).not.toBe(before?.due);
  });

  it('reads a page by day from any place of the list, and the heads with it', async () => {
    const page = (after?: { due: CalendarDay; id: string }) => at.db.lines.workPage(at.therapist, { kind: 'all', after }, 4);
    const seen: string[] = [];
    let last: { due: CalendarDay; id: string } | undefined;
    for (;;) {
      const rows = await page(last);
      seen.push(...rows.map((row) => `${row.due} ${row.id}`));
      last = rows.at(-1);
      if (rows.length === 0) break;
      expect(rows[0]).toMatchObject({ reference: expect.stringMatching(/^HL-/), born: '2016-02-29', first: true });
    }
    const database = await at.db.client.getDatabase();
    const all = (await database.select().from(at.db.schema.workLine)).filter((row) => row.clinicId === at.therapist.clinicId && row.first);
    expect(seen).toEqual(all.map((row) => `${row.due} ${row.id}`).sort());
    expect(new Set(seen).size).toBe(seen.length);
  });

  it('keeps counts equal to a recount through random writes, days and renewals by three at once', async () => {
    const random = seeded(20261125);
    const whole = (below: number) => Math.floor(random.uniform() * below);
    let today: CalendarDay = TODAY;
    for (let round = 0; round < 12; round++) {
      const writes = Array.from({ length: 6 }, async () => {
        const patientId = ids[whole(ids.length)] ?? '';
        const day = addDays(TODAY, -whole(300));
        if (whole(2) === 0) await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn(day) });
        else {
          const piece = { ...pieceFrom(null, day, `p ${round} ${whole(1e6)}`), firstWorn: addDays(day, 7) };
          await at.db.pieces.savePiece(at.therapist, { patientId, submissionId: form(), piece });
        }
      });
      today = addDays(today, whole(9));
      await Promise.all([...writes, ...[1, 2, 3].map(() => at.db.renew.refreshStale(at.therapist, today))]);
      const [counted, kept] = await countedAndKept();
      expect(kept).toEqual(counted);
    }
    await at.db.renew.refreshStale(at.therapist, today);
    expect((await behind(today)).behind).toBe(0);
    const database = await at.db.client.getDatabase();
    for (const patientId of ids) {
      const before = (await linesOf(patientId)).map(({ id: _id, ...line }) => JSON.stringify(line)).sort();
      await database.update(at.db.schema.workState).set({ renewedFor: null });
      await at.db.renew.refreshPatient(at.therapist, patientId, today);
      expect((await linesOf(patientId)).map(({ id: _id, ...line }) => JSON.stringify(line)).sort()).toEqual(before);
    }
  });

  it('gives each stale patient to one of several that claim at the same moment', async () => {
    const aim = await at.db.renew.workAim(at.therapist, calendarDay('2028-02-29'));
    const database = await at.db.client.getDatabase();
    await database.update(at.db.schema.workState).set({ claimedUntil: null });
    const claim = () => at.db.stale.claimStale(at.therapist, aim, 3, new Date('2028-02-29T08:00:00Z'), 60_000);
    const claimed = (await Promise.all([claim(), claim(), claim(), claim()])).flat();
    expect(claimed).toHaveLength(12);
    expect(new Set(claimed).size).toBe(12);
    const later = await at.db.stale.claimStale(at.therapist, aim, 100, new Date('2028-02-29T08:00:30Z'), 60_000);
    expect(later.filter((id) => claimed.includes(id))).toEqual([]);
    const abandoned = await at.db.stale.claimStale(at.therapist, aim, 100, new Date('2028-02-29T08:01:31Z'), 60_000);
    expect(abandoned).toEqual(expect.arrayContaining(claimed));
  });
});
