import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Therapist } from '@/db/therapist';
import { serviceDictionary, serviceTable } from '@/lib/exchange/service-table';
import { serviceFigures } from '@/lib/service/service-figures';
import { servicePeriod } from '@/lib/service/service-period';
import { calendarDay } from '@/lib/units/calendar-day';
import { seeded } from '@/tests/cohort/random';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { plantAnswers } from './planted-answers';

const TODAY = calendarDay('2026-11-30');

describe.each(ENGINES)('were we right, on %s', (engine) => {
  let at: ClinicOn;
  beforeAll(async () => {
    at = await clinicOn(engine);
    // One clinic whose errors are 1.5 times as assumed, whose changes come half as often as said and whose pieces are early; and one that is right.
    await plantAnswers(at.db, at.therapist, seeded(91), { errors: 1.5, comes: 0.5, kept: 0.7 });
    await plantAnswers(at.db, at.stranger, seeded(92), { errors: 1, comes: 1, kept: 0.9 });
  });
  afterAll(async () => at?.close());

  const figuresOf = async (choice: 'year' | 'all', therapist: Therapist) => {
    const { serviceCounts } = await import('@/db/service/service-counts');
    const period = servicePeriod(choice, TODAY);
    return serviceFigures(await serviceCounts(therapist, period), period);
  };

  it('finds the rule that is off and by how much, and none in the clinic that is right', async () => {
    const off = (await figuresOf('all', at.therapist)).right;
    expect(off.ranges).toHaveLength(2);
    for (const { isOff, scale } of off.ranges) {
      expect(isOff).toBe(true);
      // Errors 1.5 times as assumed: 2.25 times the variance; the 95th of a hundred misses of about 200 has an SE near 8 %.
      expect(Math.sqrt(scale ?? 0)).toBeGreaterThan(1.25);
      expect(Math.sqrt(scale ?? 0)).toBeLessThan(1.8);
    }
    expect(off.tenths.filter(({ isOff }) => isOff).length).toBeGreaterThan(3);
    expect(off.earlyKept?.isOff).toBe(true);
    const right = (await figuresOf('all', at.stranger)).right;
    expect(right.ranges.map(({ isOff }) => isOff)).toEqual([false, false]);
    expect(right.tenths.filter(({ isOff }) => isOff).length).toBeLessThan(2);
    expect(right.earlyKept?.isOff).toBe(false);
    expect(off.brier?.score).toBeGreaterThan(right.brier?.score ?? 1);
  });

  it('counts just what stands in the rows, of the period asked for, and lists the same cases', async () => {
    const database = await at.db.client.getDatabase();
    const rows = (await database.select().from(at.db.schema.answerOutcome)).filter(({ clinicId }) => clinicId === at.therapist.clinicId);
    const { serviceRows } = await import('@/db/service/service-rows');
    for (const [choice, from] of [
      ['all', '0000-00-00'],
      ['year', '2026-01-01'],
    ] as const) {
      const here = rows.filter(({ day }) => day >= from && day < '2026-12-01');
      const { right } = await figuresOf(choice, at.therapist);
      const decided = here.filter(({ changed, probability }) => changed !== null && probability !== null);
      const brier =
        decided.reduce((sum, { changed, probability }) => sum + ((probability ?? 0) - Number(changed)) ** 2, 0) / decided.length;
      expect(right.brier?.n).toBe(decided.length);
      expect(right.brier?.score).toBeCloseTo(brier, 9);
      const last = here.filter(({ against }) => against === 'last');
      const held = right.ranges.find(({ of }) => of === 'last');
      expect(held).toMatchObject({ all: last.length, some: last.filter(({ miss }) => Math.abs(miss ?? 999) <= 196).length });
      const period = servicePeriod(choice, TODAY);
      const listed = await serviceRows(at.therapist, { figure: 'ranges', by: 'answer', of: 'last' }, period, 10);
      expect([listed.total, listed.rows.length]).toEqual([last.length, 10]);
      const kept = right.verdicts.find(({ against, word }) => against === 'baseline' && word === 'no-clear-change');
      const answer = { figure: 'verdicts', by: 'answer', of: 'baseline no-clear-change' } as const;
      expect((await serviceRows(at.therapist, answer, period, 1)).total).toBe((kept?.confirmed ?? 0) + (kept?.contradicted ?? 0));
      const tenth = right.tenths.find(({ tenth: of }) => of === 7);
      expect((await serviceRows(at.therapist, { figure: 'chances', by: 'answer', of: '7' }, period, 1)).total).toBe(tenth?.all);
      const early = { figure: 'outgrow', by: 'answer', of: 'before-early' } as const;
      expect((await serviceRows(at.therapist, early, period, 1)).total).toBe(right.outlooks['before-early']);
    }
  });

  it('finds the planted days without a piece and the planted loss of a phase, and lists their cases', async () => {
    const { care } = await figuresOf('all', at.therapist);
    // One limb, twelve months of 30 days, 3 of each without: a tenth of the year.
    expect(care.without).toMatchObject({ n: 1, low: null, high: null });
    expect(care.without?.days).toBeCloseTo(36.525, 9);
    expect(care.phases.map(({ phase, lost, kept }) => [phase, lost, kept?.some, kept?.all])).toEqual([
      [
        'garments',
        [
          { days: -10, n: 1 },
          { days: 0, n: 1 },
        ],
        1,
        2,
      ],
      ['reduction', [{ days: 65, n: 24 }], undefined, undefined],
    ]);
    const { serviceRows } = await import('@/db/service/service-rows');
    const period = servicePeriod('all', TODAY);
    const without = await serviceRows(at.therapist, { figure: 'without' }, period, 1);
    expect(without).toMatchObject({ total: 12, rows: [{ days: 3, what: 'of 30 without a working piece', of: 'left leg' }] });
    expect((await serviceRows(at.therapist, { figure: 'excess', by: 'phase', of: 'garments' }, period, 1)).total).toBe(2);
    expect((await figuresOf('year', at.therapist)).care.without).toBeNull();
  });

  it('goes out as figures, each of them in the dictionary', async () => {
    const figures = await figuresOf('all', at.therapist);
    const lines = serviceTable(figures).split('\r\n');
    const held = figures.right.ranges.find(({ of }) => of === 'baseline');
    expect(lines.some((line) => line.startsWith(`ranges_held,against,baseline,,2026-11,${held?.all},${held?.some},1,`))).toBe(true);
    expect(lines.some((line) => line.startsWith('scale_learnt,against,last,'))).toBe(true);
    expect(lines.some((line) => line.startsWith(`brier_score,,,,2026-11,${figures.right.brier?.n},,1,0.`))).toBe(true);
    const told = serviceDictionary();
    for (const line of lines.slice(1).filter(Boolean)) expect(told).toContain(`figure,${line.split(',')[0]},`);
  });
});
