import { describe, expect, it } from 'vitest';
import { usualDifference } from '@/lib/analysis/usual-difference';
import type { Phase } from '@/lib/course/phases';
import type { KeptBooking } from '@/lib/diary/booking';
import type { Diary } from '@/lib/diary/diary';
import { burnDriftZ } from '@/lib/growth/after-burn';
import { projectMeasure } from '@/lib/growth/project-measure';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import { NO_FACTS, type WorkFacts } from '@/lib/record/work-facts';
import { patientWork } from '@/lib/schedule/patient-work';
import { calendarDay } from '@/lib/units/calendar-day';
import { recordOf, visitOf } from '../made-up-ladder';
import { FACTS } from '../made-up-noted';
import { legOf } from '../prompts/made-up-piece';

const day = calendarDay;
const WEEK: Diary = { weekdays: [1, 2, 3, 4, 5], closed: [], capacity: null };
const booked = (on: string, rest: Partial<KeptBooking> = {}): KeptBooking => ({
  ...{ bookingId: on, day: day(on), time: null, what: null, state: 'booked' },
  ...rest,
});

function workOn(today: string, bookings: readonly KeptBooking[], facts: WorkFacts = NO_FACTS, visits = ['2026-10-14'], diary = WEEK) {
  const record = recordOf(
    visits.map((on) => visitOf(on, [legOf()], { height: '170 cm', weight: '70 kg' })),
    { born: day('1980-03-01'), bookings, facts },
  );
  return patientWork(record, { answers: [], moves: [], diary }, DEFAULT_POLICY, day(today));
}
const datesOf = (...given: Parameters<typeof workOn>) => workOn(...given).dates.map((one) => `${one.kind} ${one.day}`);

describe('bookings among the dates', () => {
  it('one that is ahead stands for the next visit, with its time; its prompt rests', () => {
    const late = workOn('2027-08-02', [booked('2027-08-05', { time: '09:30', what: 'fit' })]);
    expect(late.dates).toMatchObject([{ kind: 'booking', day: '2027-08-05', time: '09:30', why: 'booked for Thu 5 Aug at 09:30: fit' }]);
    expect(late.open.some(({ action }) => action === 'visit')).toBe(false);
    expect(workOn('2027-08-02', []).open.some(({ action }) => action === 'visit')).toBe(true);
  });

  it('one whose day passed is asked about, one that was measured on is kept and gone', () => {
    expect(datesOf('2026-11-25', [booked('2026-11-24')])).toContain('not-said 2026-11-24');
    expect(datesOf('2026-11-25', [booked('2026-10-14')])).toEqual(['visit 2027-04-14']);
  });

  it('one kept today leaves the next visit to be booked', () => {
    expect(datesOf('2026-10-14', [booked('2026-10-14')])).toEqual(['visit 2027-04-14']);
  });

  it('one far behind the due day does not answer that a visit is due', () => {
    expect(datesOf('2027-08-02', [booked('2028-05-04')])).toEqual(['visit 2027-04-14', 'booking 2028-05-04']);
    expect(workOn('2027-08-02', [booked('2028-05-04')]).open.some(({ action }) => action === 'visit')).toBe(true);
    expect(datesOf('2027-04-01', [booked('2027-05-12')])).toEqual(['booking 2027-05-12']);
    expect(datesOf('2027-04-01', [booked('2027-05-13')])).toEqual(['visit 2027-04-14', 'booking 2027-05-13']);
  });

  it('while the course rests one that still stands says so; after a death nothing does', () => {
    const at = (phase: Partial<Phase>) => {
      const phases = [{ kind: 'on-hold', from: day('2026-11-01'), until: null, baselineDay: null, ...phase } as Phase];
      const record = recordOf([visitOf('2026-10-14', [legOf()])], { born: day('1980-03-01'), bookings: [booked('2026-12-01')], phases });
      return patientWork(record, { answers: [], moves: [], diary: WEEK }, DEFAULT_POLICY, day('2026-11-25')).dates;
    };
    expect(at({}).find(({ kind }) => kind === 'booking')?.why).toBe('booked for Tue 1 Dec; the course rests: cancel it, or begin a phase');
    expect(at({ kind: 'ended', endedAs: 'died' })).toEqual([]);
  });

  it('a missed one is rung about, with the contact, until something comes after it', () => {
    const missed = booked('2026-11-20', { state: 'missed' });
    const work = workOn('2026-11-25', [missed], FACTS);
    expect(work.items.find(({ key }) => key === 'missed:2026-11-20')).toMatchObject({
      due: '2026-11-20',
      title: 'Call about a missed visit',
      reason: 'Booked for Fri 20 Nov; not kept. Call Ada Vance (mother), 555-0177, with an interpreter.',
    });
    expect(datesOf('2026-11-25', [missed, booked('2026-12-01')])).not.toContain('missed 2026-11-20');
    const cancelled = booked('2026-12-01', { state: 'cancelled by the person' });
    expect(datesOf('2026-11-25', [missed, cancelled])).toContain('missed 2026-11-20');
    expect(datesOf('2026-11-25', [missed], NO_FACTS, ['2026-10-14', '2026-11-23'])).not.toContain('missed 2026-11-20');
  });

  it('a referral is asked for anew four weeks before its end, on a working day', () => {
    const facts = { ...NO_FACTS, referralUntil: day('2027-01-02'), prescriber: 'Dr. Pell' };
    const { dates, items } = workOn('2026-11-25', [], facts);
    // 28 days before Saturday 2 January 2027 is Saturday 5 December 2026; the clinic works Monday to Friday.
    expect(dates.find(({ kind }) => kind === 'referral')).toMatchObject({ computed: '2026-12-05', day: '2026-12-04' });
    expect(items.find(({ title }) => title === 'Ask for the next referral')?.reason).toBe(
      'The referral ends 2 Jan 2027; Dr. Pell; a working day before Saturday 5 December.',
    );
  });
});

describe('what is known of a person is used', () => {
  const policy = DEFAULT_POLICY;

  /** Closed form: 1.10 / 1.0112 − 1 and 1.10 × 1.0112 − 1 (Smoot 2014). */
  it('the usual difference of a dominant arm stands beside an excess, of a leg nothing does', () => {
    const right = { limb: 'arm', side: 'right' } as const;
    const of = (dominantHand: WorkFacts['dominantHand'], limb = right as { limb: string; side: 'left' | 'right' }) =>
      usualDifference(0.1, limb, { ...NO_FACTS, dominantHand }, policy)?.beyond;
    expect(of('right')).toBeCloseTo(1.1 / 1.0112 - 1, 12);
    expect(of('left')).toBeCloseTo(1.1 * 1.0112 - 1, 12);
    expect([of('both'), of(null), of('right', { limb: 'leg', side: 'right' })]).toEqual([undefined, undefined, undefined]);
  });

  /** By hand: half a year of 365.25 days ahead of 0.76 z; over three years after the injury nothing; below 40 % nothing. */
  it('a large burn widens a child’s outlook for three years, and does not move its middle', () => {
    const burnt = { ...NO_FACTS, injured: day('2026-01-01'), burntPct: 45 };
    const drift = (facts: WorkFacts, from: string, to: string) => burnDriftZ(facts, day(from), day(to), policy);
    expect(drift(burnt, '2026-06-01', '2026-12-01')).toBeCloseTo((0.76 * 183) / 365.25, 9);
    expect(drift(burnt, '2029-01-01', '2029-06-01')).toBe(0);
    expect(drift(burnt, '2028-12-02', '2029-06-01')).toBeCloseTo((0.76 * 30) / 365.25, 9);
    expect(drift({ ...burnt, burntPct: 39 }, '2026-06-01', '2026-12-01')).toBe(0);
    expect(drift({ ...burnt, injured: null }, '2026-06-01', '2026-12-01')).toBe(0);
    const ahead = (further: number) => {
      const found = projectMeasure(
        'cdc-2000',
        'height',
        'F',
        day('2017-06-01'),
        day('2026-06-01'),
        133,
        day('2026-12-01'),
        undefined,
        further,
      );
      if (isNoAnswer(found)) throw new Error(found.noAnswer);
      return found;
    };
    expect(ahead(0.38).middle).toBe(ahead(0).middle);
    expect(ahead(0.38).sd).toBeGreaterThan(2 * ahead(0).sd);
  });
});
