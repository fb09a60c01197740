import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Phase } from '@/lib/course/phases';
import { calendarDay } from '@/lib/units/calendar-day';
import { page } from '@/tests/faults/save-paths';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, orderFrom, visitOn } from './made-up-records';

const form = () => crypto.randomUUID();
const TODAY = calendarDay('2026-11-25');
const phase = (kind: Phase['kind'], from: string, more: Partial<Phase> = {}): Phase => ({
  kind,
  from: calendarDay(from),
  until: null,
  baselineDay: null,
  ...more,
});
const REDUCTION = phase('reduction', '2026-09-01', { note: 'bandaged daily' });
const GARMENTS = phase('garments', '2026-10-14', { baselineDay: calendarDay('2026-10-14') });
const DIED = phase('ended', '2026-11-20', { endedAs: 'died' });

describe.each(ENGINES)('a course of care on %s', (engine) => {
  let at: ClinicOn;
  let patientId: string;
  let visitId: string;

  beforeAll(async () => {
    at = await clinicOn(engine);
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0600') });
    patientId = 'patientId' in added ? added.patientId : '';
    const saved = await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-10-14') });
    visitId = 'visitId' in saved ? saved.visitId : '';
  });
  afterAll(async () => at?.close());

  const write = (
    expected: number,
    phases: readonly Phase[],
    more: { reason?: string; deathWasMistaken?: boolean; submissionId?: string } = {},
  ) =>
    at.db.course.saveCourse(at.therapist, patientId, expected, {
      submissionId: form(),
      phases,
      deed: expected === 0 ? 'phase begun' : 'phase corrected',
      reason: null,
      ...more,
    });
  const phasesNow = async () => (await at.db.records.recordOf(at.therapist, patientId))?.phases;

  it('is written, and written again; each state stays, with who and why; a stranger and a reader write nothing', async () => {
    const submissionId = form();
    expect(await write(0, [REDUCTION], { submissionId })).toEqual({ kind: 'saved' });
    expect(await write(0, [REDUCTION], { submissionId })).toEqual({ kind: 'already-saved' });
    expect(await write(0, [GARMENTS])).toEqual({ kind: 'conflict' });
    expect(await write(1, [GARMENTS, REDUCTION], { reason: 'garments began' })).toEqual({ kind: 'saved' });
    expect(await phasesNow()).toEqual([REDUCTION, GARMENTS]);
    const history = await at.db.course.courseHistory(at.therapist, patientId);
    expect(history.map(({ number, phases, reason }) => [number, phases, reason])).toEqual([
      [2, [REDUCTION, GARMENTS], 'garments began'],
      [1, [REDUCTION], null],
    ]);
    const entry = { submissionId: form(), phases: [], deed: 'phase taken back', reason: 'r' } as const;
    expect(await at.db.course.saveCourse(at.stranger, patientId, 2, entry)).toEqual({ kind: 'not-found' });
    await expect(at.db.course.saveCourse(at.reader, patientId, 2, entry)).rejects.toThrow();
    expect((await at.db.course.courseHistory(at.stranger, patientId)).length).toBe(0);
  });

  it.each([
    ['ends before it begins', [phase('reduction', '2026-09-01', { until: calendarDay('2026-08-31') })], 'until'],
    ['overlaps', [phase('reduction', '2026-09-01', { until: calendarDay('2026-10-20') }), GARMENTS], 'from'],
    ['has a baseline without a visit', [phase('reduction', '2026-09-01', { baselineDay: calendarDay('2026-09-02') })], 'baselineDay'],
    ['ends before its last visit', [REDUCTION, phase('ended', '2026-10-13')], 'from'],
    ['goes on after a death', [DIED, phase('garments', '2026-11-21')], 'from'],
  ])('that %s is refused at its field, and nothing is written', async (_what, phases, field) => {
    expect(await write(2, phases)).toMatchObject({ kind: 'refused', faults: [{ field }] });
    expect(await phasesNow()).toEqual([REDUCTION, GARMENTS]);
  });

  it('ended takes no visit after its day, in the sheet or a correction; one on the day is taken', async () => {
    expect(await write(2, [REDUCTION, GARMENTS, phase('ended', '2026-11-01', { endedAs: 'discharged' })])).toEqual({ kind: 'saved' });
    const late = { submissionId: form(), visit: visitOn('2026-11-02') };
    expect(await at.db.visits.saveVisit(at.therapist, { patientId, ...late })).toMatchObject({ kind: 'after-end' });
    expect(await at.db.visits.reviseVisit(at.therapist, visitId, 1, { ...late, reason: 'day' })).toMatchObject({ kind: 'after-end' });
    const last = { patientId, submissionId: form(), visit: visitOn('2026-11-01') };
    expect(await at.db.visits.saveVisit(at.therapist, last)).toMatchObject({ kind: 'saved' });
  });

  it('that ends by a death stops links, dates, orders, letters and Today at once, and is undone only as a mistake, with both states kept', async () => {
    const { familyPages, links, feeds, orders, renew, lines } = at.db;
    expect(await write(3, [REDUCTION, GARMENTS])).toEqual({ kind: 'saved' });
    const documentId = (await familyPages.approveFamilyPage(at.therapist, { visitId, submissionId: form(), page: page('Ada') })) ?? '';
    const token = (await links.openLink(at.therapist, documentId)) ?? '';
    const cookie = (await links.openSharedPage(token)) ?? '';
    const calendar = (await feeds.openFeed(at.therapist, null)) ?? '';
    await renew.refreshPatient(at.therapist, patientId, TODAY);
    const seen = async () => ({
      opens: (await links.openSharedPage(token)) !== undefined,
      page: (await links.sharedPage(cookie)) !== undefined,
      dates: ((await feeds.calendarOfToken(calendar, new Date('2027-01-01')))?.dates ?? []).length > 0,
      today: (await lines.workOf(at.therapist, [patientId], 'all')).length > 0,
      order: (await orders.proposeOrder(at.therapist, { patientId, submissionId: form(), order: orderFrom(visitId, '2026-10-14') })).kind,
      waiting: (await at.db.readingOrders.openOrders(at.therapist, 10)).length > 0,
    });
    expect(await seen()).toEqual({ opens: true, page: true, dates: true, today: true, order: 'saved', waiting: true });
    expect(await write(4, [REDUCTION, GARMENTS, DIED])).toEqual({ kind: 'saved' });
    expect(await seen()).toEqual({ opens: false, page: false, dates: false, today: false, order: 'held', waiting: false });
    expect(await links.openLink(at.therapist, documentId)).toBeUndefined();
    expect(await feeds.openFeed(at.therapist, patientId)).toBeUndefined();
    expect((await at.db.records.recordOf(at.therapist, patientId))?.visits).toHaveLength(2);

    expect(await write(5, [REDUCTION, GARMENTS])).toEqual({ kind: 'death-undone' });
    expect(await write(5, [REDUCTION, GARMENTS], { deathWasMistaken: true })).toEqual({ kind: 'death-undone' });
    expect(await write(5, [REDUCTION, GARMENTS], { deathWasMistaken: true, reason: 'another Ada' })).toEqual({ kind: 'saved' });
    expect(await seen()).toMatchObject({ opens: true, page: true, order: 'saved', waiting: true });
    const [now, before] = await at.db.course.courseHistory(at.therapist, patientId);
    expect([now?.phases, before?.phases.at(-1)]).toEqual([[REDUCTION, GARMENTS], DIED]);
    const deeds = await at.db.audit.auditEntries(at.therapist, 100, patientId);
    expect(deeds.map(({ action }) => action)).toEqual(
      expect.arrayContaining(['phase begun', 'phase corrected', 'death noted', 'death taken back']),
    );
  });

  it('goes out with the patient and comes in with a new one', async () => {
    const [out] = await at.db.files.patientFiles(at.therapist, [patientId]);
    expect(out?.file.phases).toEqual([REDUCTION, GARMENTS]);
    const { bringIn } = await import('@/db/exchange/bring-in');
    if (!out) throw new Error('nothing went out');
    const brought = await bringIn(at.stranger, out.file, 'o', new Date());
    if (!('steps' in brought)) throw new Error(brought.kind);
    expect(await at.db.together.inTransaction(brought.steps)).toEqual({ kind: 'written' });
    expect((await at.db.records.recordOf(at.stranger, brought.patientId))?.phases).toEqual([REDUCTION, GARMENTS]);
    const wrong = { ...out.file, details: { ...out.file.details, reference: 'HL-9' }, phases: [phase('ended', '2026-10-01')] };
    expect(await bringIn(at.therapist, wrong, 'w', new Date())).toMatchObject({
      kind: 'refused',
      words: expect.stringContaining('after the course ended'),
    });
  });
});
