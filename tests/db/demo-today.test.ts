import { afterEach, describe, expect, it } from 'vitest';
import { addDays, calendarDay } from '@/lib/units/calendar-day';
import { type ClinicOn, clinicOn } from './clinic-on';

// What a clinic that keeps up with its work looks like, by our own judgement: a few things late, more due within the week, some later.
describe('Today of the demonstration clinic', () => {
  let at: ClinicOn | undefined;
  afterEach(async () => at?.close());

  it.each([
    ['a Wednesday', '2026-11-25'],
    ['a Sunday', '2027-02-28'],
    ['a leap day', '2028-02-29'],
  ])('is a believable mix on %s, and shows each kind of work', async (_name, day) => {
    at = await clinicOn('sqlite');
    const { seedClinic } = await import('@/app/_commands/demonstration/seed-clinic');
    const { workTotals } = await import('@/db/worklist/work-counts');
    const { WORK_KINDS } = await import('@/lib/schedule/worklist');
    const today = calendarDay(day);
    expect(await seedClinic(at.therapist, today)).toBe(22);
    const totals = await workTotals(at.therapist, today, addDays(today, 7), ['all', ...WORK_KINDS]);
    const { overdue = 0, 'this-week': thisWeek = 0, later = 0 } = totals.get('all') ?? {};
    // Nothing is due of the one who died.
    expect(overdue + thisWeek + later).toBe(21);
    expect(overdue).toBeGreaterThanOrEqual(2);
    expect(overdue).toBeLessThanOrEqual(5);
    expect(thisWeek).toBeGreaterThanOrEqual(4);
    expect(later).toBeGreaterThanOrEqual(3);
    for (const kind of WORK_KINDS) expect(totals.has(kind), kind).toBe(true);
    // What the heads of the kinds count is what stands behind the patients of the list.
    const { firstReferrals, overdueOf, workPage } = await import('@/db/worklist/work-lines');
    const first = [...(await workPage(at.therapist, { kind: 'all', before: today }, 100)), ...(await firstReferrals(at.therapist, 100))];
    const ofPatients = await overdueOf(
      at.therapist,
      first.map(({ patientId }) => patientId),
      today,
    );
    const sum = (figures: Iterable<number>) => [...figures].reduce((whole, one) => whole + one, 0);
    expect(sum(ofPatients.values())).toBe(sum(WORK_KINDS.map((kind) => totals.get(kind)?.overdue ?? 0)));
    expect(await overdueOf({ ...at.therapist, clinicId: 'another' }, [...ofPatients.keys()], today)).toEqual(new Map());
    const { piecesByOrderDay } = await import('@/db/patients/read-pieces');
    const pieces = await piecesByOrderDay(at.therapist, {});
    const days = pieces.map(({ orderBy }) => orderBy ?? '9999');
    expect(days).toEqual([...days].sort());
    expect(days.filter((one) => one !== '9999').length).toBeGreaterThan(3);
    const late = await piecesByOrderDay(at.therapist, { before: today });
    expect(late.map(({ pieceId }) => pieceId)).toEqual(
      pieces.flatMap(({ pieceId, orderBy }) => (orderBy && orderBy < today ? [pieceId] : [])),
    );
    const lia = await piecesByOrderDay(at.therapist, { words: 'fontane' });
    expect(lia.length > 0 && lia.length < pieces.length && new Set(lia.map(({ patientId }) => patientId)).size === 1).toBe(true);
    expect(await piecesByOrderDay(at.therapist, { words: 'nobody of this name' })).toEqual([]);
    for (const one of await piecesByOrderDay(at.therapist, { toCome: true })) expect(one.firstWorn).toBeNull();
  });
});
