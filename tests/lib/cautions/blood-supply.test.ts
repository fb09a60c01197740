import { describe, expect, it } from 'vitest';
import { judgeSupply, type SupplyFinding } from '@/lib/cautions/blood-supply';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { calendarDay } from '@/lib/units/calendar-day';

const TODAY = calendarDay('2026-11-25');
const CHECKED = { day: calendarDay('2026-10-01'), by: 'KD', risk: 'none' } as const;
const says = (finding: SupplyFinding, age = 50) => judgeSupply({ ...CHECKED, ...finding }, age, DEFAULT_POLICY, TODAY).says;
const index = (abpi: number, plannedMmHg: number, more: SupplyFinding = {}) => says({ check: 'index', abpi, plannedMmHg, ...more });
const clinical = (plannedMmHg: number, more: SupplyFinding = {}, age = 50) =>
  says({ check: 'clinical check', clinical: 'good', plannedMmHg, ...more }, age);

describe('blood supply of a leg by an index (Rabe 2020: none below 0.6; a UK area guideline: needed above 20 mmHg; guidelines differ on 0.6–0.8)', () => {
  it('goes on from 0.8 to 1.3, asks for written advice from 0.6, stops below and above', () => {
    expect([0.8, 1.0, 1.3].map((abpi) => index(abpi, 18))).toEqual(['go', 'go', 'go']);
    expect([0.6, 0.79].map((abpi) => index(abpi, 18))).toEqual(['advice', 'advice']);
    expect([0.59, 1.31].map((abpi) => index(abpi, 18))).toEqual(['stop', 'stop']);
    expect(index(0.72, 32, { advice: 'vascular team, letter of 20 Nov' })).toBe('go');
    expect(index(0.55, 18, { advice: 'vascular team, letter of 20 Nov' })).toBe('stop');
  });

  it('above 40 mmHg waits for a vascular team, also with a good index', () => {
    expect([index(1.0, 40), index(1.0, 41)]).toEqual(['go', 'advice']);
    expect(index(1.0, 46, { advice: 'vascular team, 20 Nov' })).toBe('go');
  });

  it('counts a year, to the day, and is incomplete without day, person, pressure or risk', () => {
    expect(index(1.0, 18, { day: calendarDay('2025-11-25') })).toBe('go');
    expect(index(1.0, 18, { day: calendarDay('2025-11-24') })).toBe('incomplete');
    const { day, by } = CHECKED;
    const whole = { check: 'index', abpi: 1, plannedMmHg: 18, day, by, risk: 'none' } as const;
    for (const part of ['check', 'abpi', 'plannedMmHg', 'day', 'by', 'risk'] as const) {
      const { [part]: _left, ...rest } = whole;
      expect(judgeSupply(rest, 50, DEFAULT_POLICY, TODAY).says, part).toBe('incomplete');
    }
  });
});

describe('blood supply of a leg without an index', () => {
  it('a clinical check does up to 20 mmHg where no risk is known; above, written advice stands in its place', () => {
    expect([clinical(20), clinical(21)]).toEqual(['go', 'advice']);
    expect(clinical(32, { advice: 'letter of the vascular nurse, 3 Nov' })).toBe('go');
    expect(clinical(18, { clinical: 'poor' })).toBe('stop');
  });

  it('with a risk factor, or over 65, the index is booked as well', () => {
    expect([clinical(18, { risk: 'some' }), clinical(18, {}, 66), clinical(18, {}, 65)]).toEqual(['incomplete', 'incomplete', 'go']);
    expect(clinical(18, { risk: 'some', why: 'booked for 4 Dec' })).toBe('go');
  });

  it('“cannot be measured” is an answer: with why, a full clinical check and written advice it goes on, without advice it waits', () => {
    const cannot = (more: SupplyFinding) => says({ check: 'cannot be measured', clinical: 'good', plannedMmHg: 32, ...more });
    expect(cannot({})).toBe('incomplete');
    expect(cannot({ why: 'swelling too large for the cuff' })).toBe('advice');
    expect(cannot({ why: 'swelling too large for the cuff', advice: 'Dr Hale, letter of 12 Nov' })).toBe('go');
  });

  it('a toe pressure stops below 30 mmHg (Rabe 2020), asks for advice below 50, goes on from there', () => {
    expect([29, 30, 49, 50].map((toeMmHg) => says({ check: 'toe pressure', toeMmHg, plannedMmHg: 18 }))).toEqual([
      'stop',
      'advice',
      'advice',
      'go',
    ]);
  });
});

describe('blood supply of a child’s leg', () => {
  const child = (finding: SupplyFinding) => judgeSupply({ ...CHECKED, ...finding }, 8, DEFAULT_POLICY, TODAY);

  it('asks for no ankle–brachial index: a clinical check does, whatever the pressure', () => {
    expect(child({ check: 'clinical check', clinical: 'good' }).says).toBe('go');
    expect(child({ check: 'clinical check', clinical: 'poor' }).says).toBe('stop');
    const words = [child({}), child({ check: 'clinical check' }), child({ check: 'clinical check', clinical: 'good', risk: 'some' })];
    expect(words.map(({ says: one }) => one)).toEqual(['incomplete', 'incomplete', 'advice']);
    for (const { why } of words) expect(why).not.toMatch(/index|brachial/);
  });
});
