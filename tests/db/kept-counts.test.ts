import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { servicePeriod } from '@/lib/service/service-period';
import { calendarDay } from '@/lib/units/calendar-day';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { details, visitOn } from './made-up-records';
import { planted, plantService } from './planted-service';

const TODAY = calendarDay('2026-11-30');

describe.each(ENGINES)('kept counts of the service on %s', (engine) => {
  let at: ClinicOn;
  beforeAll(async () => {
    at = await clinicOn(engine);
    await plantService(at.db, at.therapist, planted().slice(0, 30));
  });
  afterAll(async () => at?.close());

  it('are those of the record, taken as counted until something is written, and never across a write or a renewal', async () => {
    const { keptServiceCounts } = await import('@/db/service/kept-counts');
    const { serviceCounts } = await import('@/db/service/service-counts');
    const period = servicePeriod('all', TODAY);
    const first = await keptServiceCounts(at.therapist, period);
    expect(first).toEqual(await serviceCounts(at.therapist, period));
    expect(first.fittings.length).toBeGreaterThan(0);
    expect((await keptServiceCounts(at.therapist, period)).fittings).toBe(first.fittings);
    const year = await keptServiceCounts(at.therapist, servicePeriod('year', TODAY));
    expect(year.fittings).toBe(first.fittings);
    expect(year.answers).not.toBe(first.answers);
    expect((await keptServiceCounts(at.stranger, period)).fittings).toEqual([]);
    await at.db.patients.addPatient(at.stranger, { submissionId: 'elsewhere', details: details('HS-1') });
    expect((await keptServiceCounts(at.therapist, period)).fittings).toBe(first.fittings);

    const added = await at.db.patients.addPatient(at.therapist, { submissionId: 'here', details: details('HL-9') });
    const second = await keptServiceCounts(at.therapist, period);
    expect(second.fittings).not.toBe(first.fittings);
    expect(second).toEqual(first);
    const patientId = 'patientId' in added ? added.patientId : '';
    const booking = { day: TODAY, time: null, what: null, state: 'booked' } as const;
    const entry = { kind: 'booking', thing: 'one', expected: 0, day: TODAY, content: booking, deed: 'visit booked', reason: null } as const;
    await at.db.noted.saveNoted(at.therapist, patientId, { ...entry, submissionId: 'booked' });
    await at.db.visits.saveVisit(at.therapist, { patientId, submissionId: 'visit', visit: visitOn(TODAY) });
    const third = await keptServiceCounts(at.therapist, period);
    const keptVisits = (of: typeof third) => of.booked.filter(({ standing }) => standing === 'kept').reduce((sum, { n }) => sum + n, 0);
    expect(keptVisits(third)).toBe(keptVisits(first) + 1);
    await at.db.renew.refreshPatient(at.therapist, patientId, TODAY);
    expect((await keptServiceCounts(at.therapist, period)).fittings).not.toBe(third.fittings);
  });
});
