import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { serviceFigures } from '@/lib/service/service-figures';
import { servicePeriod } from '@/lib/service/service-period';
import { calendarDay, daysBetween } from '@/lib/units/calendar-day';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';
import { planted, plantService } from './planted-service';

const TODAY = calendarDay('2026-11-30');

describe.each(ENGINES)('figures of the service on %s', (engine) => {
  let at: ClinicOn;
  let rows: typeof import('@/db/service/service-rows');
  let counting: typeof import('@/db/service/service-counts');
  const cases = planted();
  /** Eight pieces a month of the first year, each fitted once, on a day of its own: remakes are rare. */
  const few = cases.filter((_, index) => index < 240 && index % 20 < 8).map((one) => ({ ...one, again: null }));

  beforeAll(async () => {
    at = await clinicOn(engine);
    rows = await import('@/db/service/service-rows');
    counting = await import('@/db/service/service-counts');
    await plantService(at.db, at.therapist, cases);
    await plantService(at.db, at.stranger, few);
  });
  afterAll(async () => at?.close());

  const figuresOf = async (choice: 'year' | 'twelve-months' | 'all', therapist = at.therapist) => {
    const period = servicePeriod(choice, TODAY);
    return serviceFigures(await counting.serviceCounts(therapist, period), period);
  };
  const second = cases.filter(({ again }) => again !== null).length;

  it('finds the planted rates, of the whole record and of a year, by form and by reason', async () => {
    for (const [choice, from] of [
      ['all', '2025-01-01'],
      ['year', '2026-01-01'],
      ['twelve-months', '2025-12-01'],
    ] as const) {
      const here = cases.filter(({ fitted }) => fitted >= from);
      const afterwards = cases.filter(({ again }) => again !== null && again >= from).length;
      const figures = await figuresOf(choice);
      expect(figures.firstFits, choice).toMatchObject({ some: here.filter(({ outcome }) => outcome === 'keep').length, all: here.length });
      expect(figures.remakes).toMatchObject({
        some: here.filter(({ outcome }) => outcome === 'remake').length,
        all: here.length + afterwards,
      });
      expect(figures.remakesByReason).toEqual([{ of: 'girth wrong', figure: figures.remakes }]);
      const gloves = here.filter(({ form: of }) => of === 'glove');
      expect(figures.firstFitsByForm.find(({ of }) => of === 'glove')?.figure).toMatchObject({
        some: gloves.filter(({ outcome }) => outcome === 'keep').length,
        all: gloves.length,
      });
      expect(figures.firstFitsByForm.some(({ of }) => of === null)).toBe(true);
    }
  });

  it('finds the month that stands out of the limits of the first twenty, and no other', async () => {
    const { remakeChart, daysChart } = await figuresOf('year');
    if ('noAnswer' in remakeChart || 'noAnswer' in daysChart) throw new Error('no chart');
    expect(remakeChart).toMatchObject({ kind: 'shares', isFrozen: true });
    expect(remakeChart.signals).toHaveLength(1);
    expect(remakeChart.signals[0]).toMatch(/^Oct 2026 stands outside, above its upper limit: 12 of 2\d\.$/);
    expect(remakeChart.points.filter(({ isOutside }) => isOutside).map(({ label }) => label)).toEqual(['Oct 2026']);
    expect(daysChart.signals.some((words) => words.startsWith('Oct 2026 stands outside, above'))).toBe(true);
  });

  it('finds the planted days and where they went', async () => {
    const { toFitAtFirst, toFitAfterGoingBack, making, parts } = await figuresOf('all');
    const middle = (days: readonly number[]) => {
      const sorted = [...days].sort((one, other) => one - other);
      return ((sorted[Math.floor((sorted.length - 1) / 2)] as number) + (sorted[Math.ceil((sorted.length - 1) / 2)] as number)) / 2;
    };
    const apart = (from: string, to: string) => daysBetween(calendarDay(from), calendarDay(to));
    const good = cases.filter(({ outcome }) => outcome === 'keep');
    const back = cases.filter(({ again }) => again !== null);
    expect(toFitAtFirst).toMatchObject({ n: good.length, median: middle(good.map(({ ordered, fitted }) => apart(ordered, fitted))) });
    expect(toFitAfterGoingBack).toMatchObject({ n: second, median: middle(back.map(({ ordered, again }) => apart(ordered, again ?? ''))) });
    expect(making).toMatchObject({ n: cases.length, median: middle(cases.map(({ ordered, delivered }) => apart(ordered, delivered))) });
    if ('noAnswer' in parts) throw new Error(parts.noAnswer);
    const mean = (days: readonly number[]) => days.reduce((sum, one) => sum + one, 0) / days.length;
    expect(parts.measuring).toBeCloseTo(mean(good.map(({ ordered }) => apart('2024-11-01', ordered))), 9);
    expect(parts.making).toBeCloseTo(mean(good.map(({ ordered, delivered }) => apart(ordered, delivered))), 9);
    expect(parts.waiting).toBeCloseTo(mean(good.map(({ delivered, fitted }) => apart(delivered, fitted))), 9);
  });

  it('counts a prompt by its last answer in the period; begun is none', async () => {
    const { prompts, promptsByRule } = await figuresOf('year');
    expect(prompts).toMatchObject({ some: 1, all: 3 });
    expect(promptsByRule.find(({ of }) => of === 'growth')?.figure).toMatchObject({ act: 1, putOff: 0, declined: 1 });
    expect(promptsByRule.find(({ of }) => of === 'weight')?.figure).toMatchObject({ act: 0, putOff: 1, declined: 0 });
  });

  it('counts booked visits that were missed among those kept or missed, by their newest state', async () => {
    expect((await figuresOf('all')).missed).toMatchObject({ some: 2, all: 3 });
    expect((await figuresOf('year')).missed).toMatchObject({ some: 2, all: 2 });
    const { total, rows: listed } = await rows.serviceRows(at.therapist, { figure: 'booked' }, servicePeriod('all', TODAY), 10);
    expect([total, listed.map(({ day, what }) => `${day} ${what}`)]).toEqual([
      3,
      ['2026-03-04 missed', '2026-02-03 missed', '2024-11-01 kept'],
    ]);
  });

  it('lists just the rows that a figure counts, and none of another clinic', async () => {
    const figures = await figuresOf('year');
    const period = servicePeriod('year', TODAY);
    const totals = { 'first-fits': figures.firstFits, fittings: figures.remakes, prompts: figures.prompts } as const;
    for (const [figure, said] of Object.entries(totals)) {
      const { total, rows: listed } = await rows.serviceRows(at.therapist, { figure: figure as keyof typeof totals }, period, 1000);
      expect([figure, total, listed.length]).toEqual([figure, 'all' in said && said.all, total]);
    }
    const remakes = await rows.serviceRows(at.therapist, { figure: 'remakes', by: 'reason', of: 'girth wrong' }, period, 5);
    expect(remakes).toMatchObject({
      total: 'some' in figures.remakes && figures.remakes.some,
      rows: Array(5).fill({ what: 'remake: girth wrong' }),
    });
    const gloves = await rows.serviceRows(at.therapist, { figure: 'making', by: 'form', of: null }, period, 1000);
    const ofNone = figures.makingByForm.find(({ of }) => of === null)?.figure;
    expect(gloves.total).toBe(ofNone && 'n' in ofNone ? ofNone.n : 0);
    expect((await rows.serviceRows(at.therapist, { figure: 'to-fit' }, period, 1000)).total).toBe('n' in figures.toFit && figures.toFit.n);
    expect((await figuresOf('all', at.stranger)).firstFits).toMatchObject({ all: few.length });
    expect((await figuresOf('year', at.stranger)).firstFits).toEqual({
      noAnswer: 'No piece was fitted for the first time in this period.',
    });
  });

  it('counts what lies between remakes where they are rare', async () => {
    const counts = await counting.serviceCounts(at.stranger, servicePeriod('all', TODAY));
    const places = few.flatMap(({ outcome }, index) => (outcome === 'remake' ? [index] : []));
    expect(places.length).toBeGreaterThan(2);
    expect(places.length).toBeLessThan(12);
    expect(counts.betweenRemakes).toEqual(places.slice(1).map((place, index) => place - (places[index] as number) - 1));
  });
});
