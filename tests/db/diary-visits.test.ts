import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { addDays, calendarDay } from '@/lib/units/calendar-day';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, visitOn } from './made-up-records';

const TODAY = calendarDay('2026-11-25');
const form = () => crypto.randomUUID();

describe.each(ENGINES)('the diary of a clinic on %s', (engine) => {
  let at: ClinicOn;
  beforeAll(async () => {
    at = await clinicOn(engine);
  });
  afterAll(async () => at?.close());

  async function patientWith(reference: string, who = at.therapist): Promise<string> {
    const added = await at.db.patients.addPatient(who, { submissionId: form(), details: details(reference, `Person ${reference}`) });
    if (added.kind !== 'saved') throw new Error(added.kind);
    return added.patientId;
  }
  const booked = (patientId: string, day: string, time: string | null, who = at.therapist) =>
    at.db.noted.saveNoted(who, patientId, {
      ...{ submissionId: form(), kind: 'booking', thing: form(), expected: 0, day: calendarDay(day), deed: 'visit booked', reason: null },
      content: { day: calendarDay(day), time, what: 'measure', state: 'booked', reason: null },
    } as never);

  it('has booked visits by day and hour, then those of some time, then what is due; of its own clinic alone, within the days asked for', async () => {
    const [late, early, some, due, kept] = [
      await patientWith('HL-1'),
      await patientWith('HL-2'),
      await patientWith('HL-3'),
      await patientWith('HL-4'),
      await patientWith('HL-5'),
    ];
    await booked(late, '2026-12-02', '14:00');
    await booked(early, '2026-12-02', '09:30');
    await booked(some, '2026-12-02', null);
    await booked(some, '2026-12-20', null);
    // Ten years old, seen every 84 days: due on 2 December.
    await at.db.visits.saveVisit(at.therapist, { patientId: due, submissionId: form(), visit: visitOn('2026-09-09') });
    await at.db.visits.saveVisit(at.therapist, { patientId: kept, submissionId: form(), visit: visitOn('2026-11-24') });
    await booked(kept, '2026-11-24', '10:00');
    await booked(late, '2026-11-23', '08:00');
    await booked(await patientWith('HL-1', at.stranger), '2026-12-02', '08:00', at.stranger);
    await at.db.renew.refreshStale(at.stranger, TODAY);
    await at.db.renew.refreshStale(at.therapist, TODAY);
    const { diaryVisits } = await import('@/db/worklist/diary-visits');
    const shown = await diaryVisits(at.therapist, calendarDay('2026-11-23'), calendarDay('2026-12-07'), 100);
    expect(shown.map(({ day, time, reference, kind, kept: was }) => [day, time, reference, kind, was])).toEqual([
      ['2026-11-23', null, 'HL-1', 'not-said', false],
      ['2026-12-02', '09:30', 'HL-2', 'booking', false],
      ['2026-12-02', '14:00', 'HL-1', 'booking', false],
      ['2026-12-02', null, 'HL-3', 'booking', false],
      ['2026-12-02', null, 'HL-4', 'visit', false],
    ]);
    expect(shown.find(({ reference }) => reference === 'HL-2')?.why).toMatch(/^Booked for Wed 2 Dec at 09:30: measure\.$/);
    // The day came: who was measured kept theirs.
    await at.db.visits.saveVisit(at.therapist, { patientId: early, submissionId: form(), visit: visitOn('2026-12-02') });
    await at.db.renew.refreshStale(at.therapist, addDays(TODAY, 7));
    const after = await diaryVisits(at.therapist, calendarDay('2026-12-02'), calendarDay('2026-12-03'), 100);
    expect(after.find(({ reference }) => reference === 'HL-2')).toMatchObject({ kept: true, time: '09:30' });
  });
});
