import { describe, expect, it } from 'vitest';
import { firstToLeave, measureFits } from '@/lib/garments/measure-fit';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { isNoAnswer } from '@/lib/outcome';
import { measureOf } from '@/lib/parts/catalogue';
import { outlookGrowth } from '@/lib/parts/grows-as';
import type { NamedMeasure, PatientRecord } from '@/lib/record/patient-record';
import { addDays, calendarDay, daysBetween } from '@/lib/units/calendar-day';
import { cm, recordOf, visitOf } from '../made-up-ladder';
import { pieceOf, promptsOf } from '../prompts/made-up-piece';

const BORN = calendarDay('2022-05-01');
const CUT = '2026-11-01';
const hand = (measure: string, mm: number): NamedMeasure => ({ part: 'hand', side: 'left', measure, length: cm(mm / 10) });
const foot = (measure: string, mm: number): NamedMeasure => ({ part: 'foot', side: 'left', measure, length: cm(mm / 10) });
const glove = (rest = {}) =>
  pieceOf(CUT, {
    limb: 'arm',
    covers: { from: 'wrist-crease', to: 'elbow-crease' },
    garment: { form: 'glove', use: 'day', pressure: null, options: [] },
    firstWorn: calendarDay('2026-11-10'),
    ...rest,
  });
const girl = (visits: readonly (readonly [day: string, measures: readonly NamedMeasure[]])[], rest: Partial<PatientRecord> = {}) =>
  recordOf(
    visits.map(([day, measures]) => visitOf(day, [], { measures })),
    { born: BORN, sex: 'F', affected: [], ...rest },
  );
const fitOf = (record: PatientRecord, id: string, piece = glove()) =>
  measureFits(piece, record, DEFAULT_POLICY).find(({ measure }) => measure.id === id);

describe('a glove finger of a growing child', () => {
  // Snyder 1977, girls: middle finger 2.8 mm a year from 2 to 5 years, 3.3 mm from 5 to 8 (body-parts research, section 5), summed by hand.
  const grown = (days: number): number => {
    const age = daysBetween(BORN, calendarDay(CUT)) / 365.25;
    const to = age + days / 365.25;
    return 2.8 * (Math.min(to, 5) - age) + 3.3 * Math.max(0, to - 5);
  };

  it('is short by the first day on which growth alone passes 2 mm, and by the early day nine times in ten', () => {
    const fit = fitOf(girl([[CUT, [hand('middle-finger-length', 49)]]]), 'middle-finger-length');
    if (!fit || isNoAnswer(fit.outlook) || !fit.outlook.day || !fit.outlook.earlyDay) throw new Error('no day');
    const days = daysBetween(calendarDay(CUT), fit.outlook.day);
    expect([grown(days - 1) <= 2, grown(days) > 2]).toEqual([true, true]);
    // Own pace: half of what is grown is one SD (clinic default); 1.2816 SD is the 90 % point of the normal distribution.
    const early = daysBetween(calendarDay(CUT), fit.outlook.earlyDay);
    const longest = (at: number) => 49 * (1 + grown(at) / 49) * Math.exp((1.2816 * 0.5 * grown(at)) / 49) - 49;
    expect([longest(early - 1) <= 2, longest(early) > 2]).toEqual([true, true]);
    expect(days).toBeLessThan(365);
    expect(fit.outlook.by).toBe('short');
  });

  it('another finger grows in proportion to the middle one, a grown person’s not at all', () => {
    const ring = measureOf('ring-finger-length');
    if (!ring) throw new Error('ring finger');
    // Middle finger of 5.0 years: 49 at 4.5 and 57 at 7 years (Snyder 1977), straight between: 50.6 mm; 3.3 mm in the year.
    expect(outlookGrowth(ring, 'F', 5, 6, 40).ratio).toBeCloseTo(1 + 3.3 / 50.6, 10);
    const grownUp = girl([[CUT, [hand('middle-finger-length', 72)]]], { born: calendarDay('1990-01-01') });
    expect(fitOf(grownUp, 'middle-finger-length')?.outlook).toEqual({ noAnswer: 'Grown: no day is forecast.' });
  });

  it('is outside once taped short and expected to be; a rough reading alone does not say so', () => {
    const later = addDays(calendarDay(CUT), 330);
    const now = (mm: number) =>
      girl([
        [CUT, [hand('middle-finger-length', 49)]],
        [later, [hand('middle-finger-length', mm)]],
      ]);
    expect(fitOf(now(53), 'middle-finger-length')?.isOutside).toBe(true);
    expect(fitOf(now(49), 'middle-finger-length')?.isOutside).toBe(false);
    const soon = girl([
      [CUT, [hand('middle-finger-length', 49)]],
      [addDays(calendarDay(CUT), 14), [hand('middle-finger-length', 51.2)]],
    ]);
    expect(fitOf(soon, 'middle-finger-length')?.isOutside).toBe(false);
  });
});

describe('a foot piece', () => {
  const sock = pieceOf(CUT, { garment: { form: 'anklet', use: 'day', pressure: null, options: [] }, firstWorn: calendarDay('2026-11-10') });

  // Research section 5: "a foot piece 5 mm [short] after six months at 2-8 y": 10 to 11.6 mm a year.
  it('of a child of four is 5 mm short within seven months', () => {
    const first = firstToLeave(measureFits(sock, girl([[CUT, [foot('foot-length', 166)]]]), DEFAULT_POLICY));
    expect(first?.taken.measure).toBe('foot-length');
    const days = daysBetween(calendarDay(CUT), first?.outlook.day ?? calendarDay('2030-01-01'));
    expect(days).toBeGreaterThan(140);
    expect(days).toBeLessThan(215);
  });

  it('sits by tightness where it goes round: the closed form of a thin sleeve', () => {
    const later = addDays(calendarDay(CUT), 100);
    const record = girl(
      [
        [CUT, [foot('ball-girth', 200)]],
        [later, [foot('ball-girth', 206)]],
      ],
      { born: calendarDay('1990-01-01') },
    );
    // r 15 %: G 170; (1/170 − 1/206) / (1/170 − 1/200) (thin sleeve on a cylinder).
    expect(fitOf(record, 'ball-girth', sock)?.tightness?.value).toBeCloseTo((1 / 170 - 1 / 206) / (1 / 170 - 1 / 200), 12);
  });

  it('has nothing to say without a garment, without its figures, or of another part', () => {
    const record = girl([[CUT, [hand('hand-girth', 150)]]]);
    expect(measureFits(sock, record, DEFAULT_POLICY)).toEqual([]);
    expect(measureFits(pieceOf(CUT), record, DEFAULT_POLICY)).toEqual([]);
  });

  it('is prompted: refit once outside, order before it is foreseen to be, measure a small child’s foot after 91 days', () => {
    const at = (day: string, mm: number): readonly [string, readonly NamedMeasure[]] => [day, [foot('foot-length', mm)]];
    const prompts = (rule: string, record: PatientRecord, today: string) => promptsOf(rule, { ...record, pieces: [sock] }, today);
    expect(prompts('part-outgrown', girl([at(CUT, 166)]), '2026-11-15')).toEqual([]);
    expect(prompts('part-outgrown', girl([at(CUT, 166)]), '2027-04-20')[0]?.action).toBe('order');
    const [refit] = prompts('part-outgrown', girl([at(CUT, 166), at('2027-07-01', 175)]), '2027-07-01');
    expect(refit?.action).toBe('refit');
    expect(refit?.facts[0]).toContain('Left foot length: 17.5');
    expect(prompts('child-part-not-measured', girl([at(CUT, 166)]), '2027-01-30')).toEqual([]);
    expect(prompts('child-part-not-measured', girl([at(CUT, 166)]), '2027-01-31')[0]?.due).toBe('2027-01-31');
    expect(prompts('child-part-not-measured', girl([at(CUT, 166)], { born: calendarDay('2015-01-01') }), '2027-01-31')).toEqual([]);
  });
});
