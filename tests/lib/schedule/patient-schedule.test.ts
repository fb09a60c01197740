import { describe, expect, it } from 'vitest';
import { todayIn } from '@/app/_auth/today';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { nextReview } from '@/lib/record/next-visit';
import type { FirstFit, WearIn } from '@/lib/record/piece-life';
import { howItEnded } from '@/lib/schedule/how-it-ended';
import { type PatientWork, patientWork } from '@/lib/schedule/patient-work';
import type { MovedDate } from '@/lib/schedule/scheduled-date';
import { groupOf } from '@/lib/schedule/worklist';
import { calendarDay } from '@/lib/units/calendar-day';
import { recordOf, visitOf } from '../made-up-ladder';
import { legOf, pieceOf } from '../prompts/made-up-piece';

const GROWN = calendarDay('1980-03-01');
type Rest = NonNullable<Parameters<typeof recordOf>[1]> & { diagnosisGroup?: string };

function workOn(today: string, days: readonly string[], rest: Rest = {}, moves: readonly MovedDate[] = []): PatientWork {
  const record = recordOf(
    days.map((day) => visitOf(day, [legOf()], { height: '170 cm', weight: '70 kg' })),
    rest,
  );
  return patientWork(record, { answers: [], moves }, DEFAULT_POLICY, calendarDay(today));
}

const datesOn = (...given: Parameters<typeof workOn>) => workOn(...given).dates.map(({ key, day }) => `${key} ${day}`);

const fitted: FirstFit = { day: calendarDay('2026-03-10'), zones: [], outcome: 'keep', reason: null, words: null, taught: true };
const wearIn: WearIn = { firstHours: 2, fullHours: 23, days: 14, callOn: calendarDay('2026-03-08'), called: null, callNote: null };

describe('the next visit', () => {
  /** Days of the result from Python's datetime.date; leap days of 2024 and 2096, none in 2023 and 2100, month and year ends. */
  it.each([
    ['2023-12-07', '2014-06-01', '2024-02-29'],
    ['2023-02-28', '2014-06-01', '2023-05-23'],
    ['2026-12-31', '2017-06-01', '2027-03-25'],
    ['2027-12-10', '2017-06-01', '2028-03-03'],
    ['2096-12-07', '2087-06-01', '2097-03-01'],
    ['2024-01-18', '2022-06-01', '2024-02-29'],
    ['2100-01-18', '2098-06-01', '2100-03-01'],
    ['2026-01-31', '2022-06-01', '2026-03-28'],
    ['2024-02-29', '1980-03-01', '2024-08-29'],
  ])('after %s of someone born %s falls on %s', (last, born, due) => {
    expect(nextReview(recordOf([visitOf(last, [legOf()])], { born: calendarDay(born) }), DEFAULT_POLICY, calendarDay(last))?.day).toBe(due);
  });

  /**
   * Intervals by age and kind: under 2 years 4 to 6 weeks, 2 to 5 years 8 weeks, from 5 until grown 12 weeks (a children's hospital reviews
   * every 3 months), grown with burns 8 to 12 weeks, lymphoedema and venous 6 months. The clinic's practice list, on the day of the visit.
   */
  it.each([
    ['2025-01-02', undefined, 28, 42],
    ['2024-12-31', undefined, 56, 56],
    ['2021-12-31', undefined, 84, 84],
    ['2009-01-02', 'burn scar', 84, 84],
    ['1980-01-01', 'burn scar', 56, 84],
    ['1980-01-01', 'lymphoedema', 180, 184],
    ['1980-01-01', 'venous', 180, 184],
    ['1980-01-01', undefined, 180, 184],
  ])('of someone born %s with %s is %i to %i days after 1 Jan 2027', (born, diagnosisGroup, least, most) => {
    const record = {
      ...recordOf([visitOf('2027-01-01', [legOf()])], { born: calendarDay(born) }),
      ...(diagnosisGroup ? { diagnosisGroup } : {}),
    };
    const days = nextReview(record, DEFAULT_POLICY, calendarDay('2027-01-01'))?.days ?? 0;
    expect(days).toBeGreaterThanOrEqual(least);
    expect(days).toBeLessThanOrEqual(most);
  });

  it('comes by the phase of the day: weekly while a limb is reduced, within two weeks before it is stable, then by age', () => {
    const phases = [
      { kind: 'getting-ready', from: calendarDay('2026-09-01'), until: null, baselineDay: null },
      { kind: 'reduction', from: calendarDay('2026-10-01'), until: null, baselineDay: null },
      { kind: 'garments', from: calendarDay('2026-11-01'), until: null, baselineDay: null },
    ] as const;
    const record = { ...recordOf([visitOf('2026-09-20', [legOf()])], { born: GROWN }), phases };
    const due = (today: string) => nextReview(record, DEFAULT_POLICY, calendarDay(today));
    expect(due('2026-09-30')).toMatchObject({ day: '2026-10-04', limit: 'unsettledReviewDays' });
    expect(due('2026-10-01')).toMatchObject({ day: '2026-09-27', limit: 'reductionReviewDays' });
    expect(due('2026-11-01')).toMatchObject({ day: '2027-03-21', limit: 'reviewDays' });
  });

  it('comes six weeks after a new piece for a grown person with lymphoedema, and six months after that visit', () => {
    const rest = { born: GROWN, diagnosisGroup: 'lymphoedema', pieces: [pieceOf('2026-05-01', { firstWorn: calendarDay('2026-06-01') })] };
    // 1 Jun + 42 = 13 Jul; 22 Jun + 182 = 21 Dec; a visit the day before the middle, 21 Jun, is not that review yet.
    expect(datesOn('2026-06-02', ['2026-05-01'], rest)).toContain('visit-after-first-wear:2026-06-01 2026-07-13');
    expect(datesOn('2026-06-25', ['2026-05-01', '2026-06-21'], rest)).toContain('visit-after-first-wear:2026-06-01 2026-07-13');
    expect(datesOn('2026-06-25', ['2026-05-01', '2026-06-22'], rest)).toContain('visit-after:2026-06-22 2026-12-21');
    expect(datesOn('2026-06-25', ['2026-05-01'], { ...rest, diagnosisGroup: 'venous' })).toContain('visit-after:2026-05-01 2026-10-30');
  });

  it('says its figures and its source', () => {
    const [date] = workOn('2026-11-25', ['2026-10-14'], { born: calendarDay('2016-02-29') }).dates;
    expect(date).toMatchObject({
      key: 'visit-after:2026-10-14',
      day: '2027-01-06',
      sources: ['reviewDays'],
      why: 'every 84 days, last 14 Oct 2026',
    });
  });
});

describe('the dates of a piece', () => {
  const rest = (piece: Parameters<typeof pieceOf>[1]) => ({ born: GROWN, pieces: [pieceOf('2026-02-10', piece)] });

  it('are its end of life, counted from first wear, and order-by before it: 1 Mar + 90 = 30 May, less 14 to make and 7 to measure', () => {
    const dates = datesOn(
      '2026-03-02',
      ['2026-02-10'],
      rest({ firstWorn: calendarDay('2026-03-01'), firstFit: calendarDay('2026-03-01') }),
    );
    expect(dates).toEqual(
      expect.arrayContaining(['end-of-life:1 2026-05-30', 'order-by:1 2026-05-09', 'remeasure-for-order:1 2026-05-09']),
    );
  });

  it('have no remeasuring where the newest ladder will be fresh on the order-by day', () => {
    const worn = rest({ firstWorn: calendarDay('2026-03-01') });
    expect(datesOn('2026-04-02', ['2026-02-10', '2026-04-01'], worn).filter((key) => key.startsWith('remeasure'))).toEqual([]);
  });

  it('say of the order in the plan and on Today what they say of the measuring: 9 May is 88 days after 10 Feb', () => {
    const worn = rest({ firstWorn: calendarDay('2026-03-01') });
    const { open, dates, items } = workOn('2026-05-01', ['2026-02-10'], worn);
    const why = 'the ladder of 10 Feb 2026 is 88 days old by then; an order asks for one of 42 days at most';
    expect(dates.find(({ kind }) => kind === 'remeasure')?.why).toBe(why);
    expect(open.find(({ action }) => action === 'order')?.before).toBe(`Measure the left leg first: ${why}.`);
    expect(items.find(({ kind }) => kind === 'order')?.reason).toContain(`Measure the left leg first: ${why}.`);
  });

  it('count the age of the ladder to today once the order-by day is over, as the order itself will ask', () => {
    const worn = rest({ firstWorn: calendarDay('2026-03-01') });
    const { open, dates } = workOn('2026-06-20', ['2026-02-10', '2026-04-20'], worn);
    const why = 'the ladder of 20 Apr 2026 is 61 days old today; an order asks for one of 42 days at most';
    expect(dates.find(({ kind }) => kind === 'remeasure')?.why).toBe(why);
    expect(open.find(({ action }) => action === 'order')?.before).toBe(`Measure the left leg first: ${why}.`);
    expect(workOn('2026-06-20', ['2026-02-10', '2026-05-20'], worn).open.find(({ action }) => action === 'order')?.before).toBeUndefined();
  });

  it('have no order-by where a newer piece of the same cover follows', () => {
    const pieces = [
      pieceOf('2026-02-10', { firstWorn: calendarDay('2026-03-01') }),
      pieceOf('2026-02-10', { piece: '2', firstWorn: null, orderId: 'o', expected: calendarDay('2026-03-20') }),
    ];
    const dates = datesOn('2026-03-02', ['2026-02-10'], { born: GROWN, pieces });
    expect(dates).not.toContain('order-by:1 2026-05-09');
    expect(dates).toContain('delivery:2 2026-03-20');
  });

  it('follow it from the order to full wear: expected, first fit, early call, each until it is done', () => {
    const expected = calendarDay('2026-02-20');
    const delivered = calendarDay('2026-02-20');
    const firstWorn = calendarDay('2026-03-01');
    const of = (piece: Parameters<typeof pieceOf>[1]) =>
      datesOn('2026-02-15', ['2026-02-10'], rest({ expected, firstFit: null, ...piece })).filter((key) =>
        /delivery|first-fit|call/.test(key),
      );
    expect(of({})).toEqual(['delivery:1 2026-02-20']);
    expect(of({ delivered })).toEqual(['first-fit:1 2026-03-06']);
    expect(of({ delivered, firstWorn, wearIn })).toEqual(['call:1 2026-03-08', 'first-fit:1 2026-03-15']);
    const called = { ...wearIn, called: calendarDay('2026-03-07') };
    expect(of({ delivered, firstWorn, wearIn: called, fit: fitted, firstFit: fitted.day })).toEqual([]);
  });

  it('end with the piece', () => {
    const retired = { firstWorn: calendarDay('2026-03-01'), retired: calendarDay('2026-03-02') };
    expect(datesOn('2026-03-03', ['2026-02-10'], rest(retired)).map((key) => key.split(':')[0])).toEqual(['visit-after']);
  });
});

describe('a date moved by hand', () => {
  const child = { born: calendarDay('2016-02-29') };
  const moved = (rest: Partial<MovedDate> = {}): MovedDate => ({
    key: 'visit-after:2026-10-14',
    computed: calendarDay('2027-01-06'),
    day: calendarDay('2027-01-20'),
    reason: 'on holiday',
    by: 'lead',
    at: new Date('2026-11-25T10:00:00Z'),
    ...rest,
  });

  it('counts while the computed day is the one it was made from, the latest move of all', () => {
    const [date] = workOn('2026-11-25', ['2026-10-14'], child, [moved(), moved({ day: calendarDay('2027-01-27') })]).dates;
    expect(date).toMatchObject({ day: '2027-01-27', computed: '2027-01-06', moved: { reason: 'on holiday' }, fellAway: null });
  });

  it('falls away when new data gives another day, and says so', () => {
    const piece = { firstWorn: calendarDay('2026-03-01') };
    const move = moved({ key: 'order-by:1', computed: calendarDay('2026-05-09'), day: calendarDay('2026-05-15') });
    const of = (lifeDays: number) =>
      workOn('2026-03-02', ['2026-02-10'], { born: GROWN, pieces: [pieceOf('2026-02-10', { ...piece, lifeDays })] }, [move]).dates.find(
        (date) => date.key === 'order-by:1',
      );
    expect(of(90)).toMatchObject({ day: '2026-05-15', moved: { reason: 'on holiday' } });
    expect(of(80)).toMatchObject({ day: '2026-04-29', moved: null, fellAway: { day: '2026-05-15' } });
  });

  it('rests the prompt that would ask for it until the moved day has passed, and then says that it was moved', () => {
    const titles = (today: string) => workOn(today, ['2026-10-14'], child, [moved()]).items.map((item) => `${item.title} ${item.due}`);
    expect(titles('2027-01-10')).toEqual(['Visit 2027-01-20']);
    expect(titles('2027-01-20')).toEqual(['Visit 2027-01-20']);
    expect(titles('2027-01-21')).toEqual(['Book the visit 2027-01-20']);
    expect(workOn('2027-01-21', ['2026-10-14'], child, [moved()]).open[0]?.facts[0]).toContain('on holiday');
  });
});

describe('a line of the worklist', () => {
  it('is one for an order that is both a date and a prompt', () => {
    const pieces = [pieceOf('2026-02-10', { firstWorn: calendarDay('2026-03-01'), firstFit: calendarDay('2026-03-02') })];
    const orders = (today: string) => workOn(today, ['2026-02-10'], { born: GROWN, pieces }).items.filter((item) => item.kind === 'order');
    expect(orders('2026-04-20')).toMatchObject([{ key: 'order-by:1', due: '2026-05-09', prompt: null }]);
    expect(orders('2026-05-01')).toMatchObject([{ due: '2026-05-09', prompt: { cause: expect.stringContaining('replacement') } }]);
  });

  /** Offsets from UTC on 6 Jan 2027: Auckland +13, London 0, Los Angeles −8, Kathmandu +5:45. Source: IANA time zone database. */
  it.each([
    ['2027-01-06T10:59:59Z', 'Pacific/Auckland', 'this-week'],
    ['2027-01-06T11:00:00Z', 'Pacific/Auckland', 'overdue'],
    ['2027-01-06T23:59:59Z', 'Europe/London', 'this-week'],
    ['2027-01-07T00:00:00Z', 'Europe/London', 'overdue'],
    ['2027-01-07T07:59:59Z', 'America/Los_Angeles', 'this-week'],
    ['2027-01-07T08:00:00Z', 'America/Los_Angeles', 'overdue'],
    ['2027-01-06T18:14:59Z', 'Asia/Kathmandu', 'this-week'],
    ['2027-01-06T18:15:00Z', 'Asia/Kathmandu', 'overdue'],
  ])('due on 6 Jan is, at %s in %s, %s', (moment, zone, group) => {
    const today = todayIn(zone, new Date(moment));
    const [line] = workOn(today, ['2026-10-14'], { born: calendarDay('2016-02-29') }).items;
    expect(line?.due).toBe('2027-01-06');
    expect(groupOf(line?.due ?? today, today)).toBe(group);
  });
});

describe('a date that is gone from the schedule', () => {
  it('was done when what it was for has happened, else cancelled', () => {
    const with2 = recordOf([visitOf('2026-10-14', [legOf()]), visitOf('2026-11-25', [legOf()])], { pieces: [pieceOf('2026-10-14')] });
    expect(howItEnded({ key: 'visit-after:2026-10-14', kind: 'visit' }, with2)).toBe('done');
    expect(howItEnded({ key: 'visit-after:2026-11-25', kind: 'visit' }, with2)).toBe('cancelled');
    expect(howItEnded({ key: 'remeasure-for-order:1', kind: 'remeasure' }, with2)).toBe('done');
    expect(howItEnded({ key: 'order-by:1', kind: 'order' }, with2)).toBe('cancelled');
    expect(howItEnded({ key: 'delivery:7', kind: 'delivery' }, with2)).toBe('cancelled');
  });
});
