import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CoverageRule } from '@/lib/record/coverage';
import { calendarDay } from '@/lib/units/calendar-day';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, visitOn } from './made-up-records';

const form = () => crypto.randomUUID();
const LONG_AGO = new Date('2026-01-01T00:00:00Z');

describe.each(ENGINES)('calendar addresses and coverage on %s', (engine) => {
  let at: ClinicOn;
  let patientId: string;

  beforeAll(async () => {
    at = await clinicOn(engine);
    const added = await at.db.patients.addPatient(at.therapist, { submissionId: form(), details: details('HL-0001') });
    patientId = added.kind === 'saved' ? added.patientId : '';
    await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-10-14') });
    await at.db.renew.refreshPatient(at.therapist, patientId, calendarDay('2026-10-15'));
  });
  afterAll(async () => at?.close());

  it('none answers until one is opened; an opened one answers whoever holds its token, and notes when', async () => {
    expect(await at.db.feeds.feedsOf(at.therapist)).toEqual([]);
    const token = (await at.db.feeds.openFeed(at.therapist, patientId)) ?? '';
    expect(token).toMatch(/^[\w-]{43}$/);
    const read = await at.db.feeds.calendarOfToken(token, LONG_AGO);
    expect(read?.dates).toMatchObject([{ reference: 'HL-0001', kind: 'visit', day: '2027-01-06', state: 'open', sequence: 0 }]);
    expect((await at.db.feeds.feedsOf(at.therapist))[0]?.lastReadAt).not.toBeNull();
    expect(read?.alarmDays).toBeNull();
    await at.db.clinic.changeSetting(at.therapist, { key: 'calendar-alarm', value: 2, reason: null });
    expect((await at.db.feeds.calendarOfToken(token, LONG_AGO))?.alarmDays).toBe(2);
  });

  it('a withdrawn address, a made-up one and an empty one look the same', async () => {
    const token = (await at.db.feeds.openFeed(at.therapist, null)) ?? '';
    const [feed] = await at.db.feeds.feedsOf(at.therapist);
    expect(await at.db.feeds.withdrawFeed(at.stranger, feed?.feedId ?? '')).toBe(false);
    expect(await at.db.feeds.calendarOfToken(token, LONG_AGO)).toBeDefined();
    expect(await at.db.feeds.withdrawFeed(at.therapist, feed?.feedId ?? '')).toBe(true);
    expect(await at.db.feeds.withdrawFeed(at.therapist, feed?.feedId ?? '')).toBe(false);
    for (const tried of [token, 'x'.repeat(43), '']) expect(await at.db.feeds.calendarOfToken(tried, LONG_AGO)).toBeUndefined();
  });

  it('the token itself is not in the database', async () => {
    const token = (await at.db.feeds.openFeed(at.therapist, null)) ?? '';
    const database = await at.db.client.getDatabase();
    expect(JSON.stringify(await database.select().from(at.db.schema.calendarFeed))).not.toContain(token);
  });

  it('another clinic neither reads dates nor opens an address for a patient', async () => {
    expect(await at.db.feeds.datesForCalendar(at.stranger, patientId, LONG_AGO)).toEqual([]);
    expect(await at.db.feeds.openFeed(at.stranger, patientId)).toBeUndefined();
    expect(await at.db.feeds.feedsOf(at.stranger)).toEqual([]);
    await expect(at.db.feeds.openFeed(at.reader, null)).rejects.toThrow('read-only');
  });

  it('a moved date keeps its id with a higher sequence; one that new data replaces is done and the next one is open', async () => {
    const before = await at.db.feeds.datesForCalendar(at.therapist, patientId, LONG_AGO);
    const move = {
      key: 'visit-after:2026-10-14',
      computed: calendarDay('2027-01-06'),
      day: calendarDay('2027-01-11'),
      reason: 'school trip',
    };
    await at.db.moves.moveDate(at.therapist, patientId, move);
    await at.db.renew.refreshPatient(at.therapist, patientId, calendarDay('2026-10-16'));
    const moved = await at.db.feeds.datesForCalendar(at.therapist, patientId, LONG_AGO);
    expect(moved).toMatchObject([{ id: before[0]?.id, day: '2027-01-11', sequence: 1, state: 'open' }]);
    await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: form(), visit: visitOn('2026-12-14') });
    await at.db.renew.refreshPatient(at.therapist, patientId, calendarDay('2026-12-15'));
    const after = await at.db.feeds.datesForCalendar(at.therapist, patientId, LONG_AGO);
    expect(after.find((one) => one.id === before[0]?.id)).toMatchObject({ state: 'done', sequence: 2 });
    expect(after.filter((one) => one.state === 'open')).toMatchObject([{ kind: 'visit', day: '2027-03-08' }]);
  });

  it('coverage: the clinic’s rules are data, the latest choice of a patient counts, others see neither', async () => {
    const rule: CoverageRule = {
      id: 'fund',
      payer: 'County fund',
      lines: [{ use: 'day', quantity: 3, months: 6, clock: 'rolling' }],
      exceptions: ['lost'],
      source: 'contract of 2026',
    };
    expect(await at.db.coverage.coverageRulesOf(at.therapist)).toEqual([]);
    await at.db.clinic.changeSetting(at.therapist, { key: at.db.coverage.COVERAGE_KEY, value: [rule], reason: 'written' });
    expect(await at.db.coverage.coverageRulesOf(at.therapist)).toEqual([rule]);
    expect(await at.db.coverage.coverageRulesOf(at.stranger)).toEqual([]);
    const day = calendarDay('2026-10-14');
    expect(await at.db.coverage.setCoverage(at.stranger, patientId, { ruleId: 'fund', from: day, note: null })).toBe(false);
    await at.db.coverage.setCoverage(at.therapist, patientId, { ruleId: null, from: day, note: null }, new Date('2026-10-14T10:00:00Z'));
    await at.db.coverage.setCoverage(at.therapist, patientId, { ruleId: 'fund', from: day, note: null }, new Date('2026-10-15T10:00:00Z'));
    expect(await at.db.coverage.coverageOf(at.therapist, patientId)).toMatchObject({ ruleId: 'fund', from: '2026-10-14' });
    expect(await at.db.coverage.coverageOf(at.stranger, patientId)).toBeUndefined();
  });
});
