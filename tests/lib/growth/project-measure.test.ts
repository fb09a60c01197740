import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { type ProjectedMeasure, projectMeasure } from '@/lib/growth/project-measure';
import { zDrift } from '@/lib/growth/projection-error';
import { valueAtZ, zScore } from '@/lib/growth/z-score';
import { isNoAnswer, type NoAnswer } from '@/lib/outcome';
import { addDays, calendarDay } from '@/lib/units/calendar-day';

const BORN = calendarDay('2016-02-29');
const MONTH = 30.4375;
type ErrorRow = {
  sex: 'F' | 'M';
  age_months: string;
  interval_months: string;
  sd_dz: string;
  sd_error_cm: string;
  p90_abs_error_cm: string;
};
// Errors of carrying real children's heights on by constant z: tests/worked-examples/growth/README.md.
const BERKELEY: ErrorRow[] = parse(readFileSync('tests/worked-examples/growth/berkeley-height-projection-error.csv'), { columns: true });

function told(answer: ProjectedMeasure | NoAnswer): ProjectedMeasure {
  if (isNoAnswer(answer)) throw new Error(answer.noAnswer);
  return answer;
}
function median(sex: 'F' | 'M', ageDays: number): number {
  const answer = valueAtZ('who', 'height', sex, ageDays, 0);
  if (isNoAnswer(answer)) throw new Error(answer.noAnswer);
  return answer.value;
}
function ahead(sex: 'F' | 'M', ageMonths: number, months: number): ProjectedMeasure {
  const from = Math.round(ageMonths * MONTH);
  const day = addDays(BORN, from);
  return told(projectMeasure('who', 'height', sex, BORN, day, median(sex, from), addDays(day, Math.round(months * MONTH))));
}

describe('projection by constant z', () => {
  it('has an SD in centimetres at 12 months that real children keep to: at least the published one, at most 1.9 times', () => {
    for (const row of BERKELEY.filter((one) => one.interval_months === '12')) {
      const { sd } = ahead(row.sex, Number(row.age_months), 12);
      const published = Number(row.sd_error_cm);
      const case_ = `${row.sex} ${row.age_months}: ${sd.toFixed(2)} against ${published}`;
      expect(sd, case_).toBeGreaterThan(published * 0.93);
      expect(sd, case_).toBeLessThan(published * 1.9);
    }
  });

  it('has a 90 % band that held nine tenths of the real errors in most rows of 12 months', () => {
    const rows = BERKELEY.filter((one) => one.interval_months === '12');
    const held = rows.filter((row) => {
      const { low90, high90 } = ahead(row.sex, Number(row.age_months), 12);
      return (high90 - low90) / 2 > Number(row.p90_abs_error_cm) - 0.1;
    });
    expect(held.length / rows.length).toBeGreaterThan(0.8);
  });

  it('carries the z across the 60-month join of tables, so a child never seems to shrink', () => {
    const day = addDays(BORN, 1800);
    const value = valueAtZ('who', 'height', 'M', 1800, 0.7);
    const later = told(projectMeasure('who', 'height', 'M', BORN, day, isNoAnswer(value) ? 0 : value.value, addDays(day, 60)));
    expect(later.measuredOn.edition).toBe('2006');
    expect(later.readFrom.edition).toBe('2007');
    expect(later.z).toBeCloseTo(0.7, 6);
    const there = zScore('who', 'height', 'M', 1860, later.middle);
    expect(isNoAnswer(there) ? null : there.z).toBeCloseTo(0.7, 6);
    expect(later.middle).toBeGreaterThan(isNoAnswer(value) ? 0 : value.value);
  });

  it('under 2 years falls towards the middle and never shows a band narrower than ±2 cm', () => {
    const day = addDays(BORN, 300);
    const start = valueAtZ('who', 'height', 'F', 300, 1.5);
    const value = isNoAnswer(start) ? 0 : start.value;
    const later = told(projectMeasure('who', 'height', 'F', BORN, day, value, addDays(day, 91)));
    // SMOCC infants of 9 to 12 months, 3 months on: r 0.892.
    expect(later.laterZ / later.z).toBeCloseTo(0.892, 2);
    const soon = told(projectMeasure('who', 'height', 'F', BORN, day, value, addDays(day, 7)));
    expect(soon.high90 - soon.low90).toBeGreaterThanOrEqual(4);
  });

  it('is wider before and in puberty than in mid-childhood, and wider with time', () => {
    expect(ahead('F', 130, 12).sd).toBeGreaterThan(ahead('F', 84, 12).sd * 1.3);
    expect(ahead('M', 144, 12).sd).toBeGreaterThan(ahead('M', 96, 12).sd * 1.8);
    const widths = [0, 1, 3, 6, 12].map((months) => ahead('M', 100, months).sd);
    expect([...widths].sort((a, b) => a - b)).toEqual(widths);
    expect(widths[0]).toBeCloseTo(0, 9);
  });

  it('holds for weight and BMI with a wider drift than for height', () => {
    for (const measure of ['weight', 'bmi'] as const) {
      expect(zDrift(measure, 'F', 100 * MONTH, 365).sd).toBeGreaterThan(zDrift('height', 'F', 100 * MONTH, 365).sd);
    }
    const later = told(projectMeasure('cdc-2000', 'weight', 'F', BORN, calendarDay('2025-06-01'), 36, calendarDay('2025-12-01')));
    expect(later.low90).toBeLessThan(later.middle);
    expect(later.high90 - later.middle).toBeGreaterThan(later.middle - later.low90);
  });

  it.each([
    ['more than 12 months ahead', projectMeasure('who', 'height', 'F', BORN, calendarDay('2024-01-01'), 125, calendarDay('2025-01-02'))],
    ['a day before the measurement', projectMeasure('who', 'height', 'F', BORN, calendarDay('2024-01-01'), 125, calendarDay('2023-12-31'))],
    ['sex X', projectMeasure('who', 'height', 'X', BORN, calendarDay('2024-01-01'), 125, calendarDay('2024-06-01'))],
    ['weight past the last WHO row', projectMeasure('who', 'weight', 'F', BORN, calendarDay('2025-12-01'), 30, calendarDay('2026-06-01'))],
    ['an adult', projectMeasure('cdc-2000', 'height', 'F', BORN, calendarDay('2037-01-01'), 165, calendarDay('2037-06-01'))],
  ])('gives no figure for %s, with the reason', (_, answer) => {
    expect(isNoAnswer(answer) && answer.noAnswer.length > 20).toBe(true);
  });

  it('says what the tables refuse: a grown person has no z-score to carry on', () => {
    expect(
      projectMeasure('who', 'height', 'F', calendarDay('1990-01-01'), calendarDay('2024-01-01'), 165, calendarDay('2024-06-01')),
    ).toHaveProperty('noAnswer');
  });

  it('goes exactly 12 months ahead, also across a leap day', () => {
    expect(isNoAnswer(projectMeasure('who', 'height', 'F', BORN, calendarDay('2024-01-01'), 125, calendarDay('2025-01-01')))).toBe(false);
  });
});

describe('the drift of a z-score', () => {
  it.each(['F', 'M'] as const)(
    'of %s is the larger of the error at this age and a year later, from the rows of the Berkeley children',
    (sex) => {
      // SD of Δz over twelve months by age in months; tests/worked-examples/growth/README.md.
      const rows = BERKELEY.filter((row) => row.sex === sex && row.interval_months === '12');
      const at = (months: number) => Number(rows.find((row) => Number(row.age_months) === months)?.sd_dz);
      for (let months = 24; months <= 180; months += 12) {
        const larger = Math.max(at(months), at(months + 12));
        expect(zDrift('height', sex, Math.round(months * MONTH), Math.round(12 * MONTH)).sd, String(months)).toBeCloseTo(larger, 2);
      }
    },
  );
});
