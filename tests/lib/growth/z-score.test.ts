import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { GrowthMeasure } from '@/lib/growth/growth-reference';
import { plainZ } from '@/lib/growth/lms';
import { lmsAt } from '@/lib/growth/lms-table';
import { CDC_2000_WEIGHT } from '@/lib/growth/tables/cdc-2000-weight';
import { WHO_2007_WEIGHT } from '@/lib/growth/tables/who-2007-weight';
import { valueAtZ, zScore } from '@/lib/growth/z-score';
import { isNoAnswer } from '@/lib/outcome';

const DAYS_IN_MONTH = 30.4375;
type Row = Record<string, string> & { sex: 'F' | 'M'; measure: GrowthMeasure };
// Sources of the printed cells: tests/worked-examples/growth/README.md.
const rowsOf = (file: string): Row[] => parse(readFileSync(`tests/worked-examples/growth/${file}`), { columns: true });
const SD: Record<string, number> = { sd4neg: -4, sd3neg: -3, sd2neg: -2, sd1neg: -1, sd0: 0, sd1: 1, sd2: 2, sd3: 3, sd4: 4 };

function figure(answer: ReturnType<typeof valueAtZ>): number {
  if (isNoAnswer(answer)) throw new Error(answer.noAnswer);
  return answer.value;
}
function zOf(answer: ReturnType<typeof zScore>): number {
  if (isNoAnswer(answer)) throw new Error(answer.noAnswer);
  return answer.z;
}

/** Largest difference between printed cells and ours, over every SD column of the file. */
function worst(rows: Row[], ageDays: (row: Row) => number): { cells: number; apart: number } {
  let cells = 0;
  let apart = 0;
  for (const row of rows) {
    for (const [column, z] of Object.entries(SD)) {
      const printed = row[column];
      if (printed === undefined) continue;
      cells += 1;
      apart = Math.max(apart, Math.abs(figure(valueAtZ('who', row.measure, row.sex, ageDays(row), z)) - Number(printed)));
    }
  }
  return { cells, apart };
}

describe('z-scores against printed cells', () => {
  it('gives back WHO 2007 height, weight and BMI at −4 to +4 SD within the rounding of the print', () => {
    const { cells, apart } = worst(rowsOf('who-2007-sd-cells.csv'), (row) => Number(row.age_months) * DAYS_IN_MONTH);
    expect(cells).toBe(702);
    // Each ±4 cell was printed from two rounded cells, so twice and a half the 0.0005 of one.
    expect(apart).toBeLessThan(0.00125);
  });

  it('gives back WHO 2006 length, height, weight and BMI from −3 to +3 SD within one decimal of print', () => {
    const { cells, apart } = worst(rowsOf('who-2006-sd-cells.csv'), (row) => Math.round(Number(row.age_months) * DAYS_IN_MONTH));
    expect(cells).toBe(588);
    // 0.05 of print; up to half a day between a month and its whole day.
    expect(apart).toBeLessThan(0.075);
  });

  it('gives back WHO 2006 cells of single days to three decimals', () => {
    expect(worst(rowsOf('who-daily-sd-cells.csv'), (row) => Number(row.age_days)).apart).toBeLessThan(0.00051);
  });

  it('gives back the CDC 2000 3rd, 50th and 97th percentiles to four decimals', () => {
    // Standard normal quantile of 0.97: 1.880793608 (tables of the normal distribution).
    for (const row of rowsOf('cdc-2000-percentile-cells.csv')) {
      const days = Number(row.age_months) * DAYS_IN_MONTH;
      for (const [column, z] of [
        ['p3', -1.880793608],
        ['p50', 0],
        ['p97', 1.880793608],
      ] as const) {
        expect(figure(valueAtZ('cdc-2000', row.measure, row.sex, days, z))).toBeCloseTo(Number(row[column]), 3);
      }
      const at97 = zScore('cdc-2000', row.measure, row.sex, days, Number(row.p97));
      expect(isNoAnswer(at97) ? null : at97.centile).toBeCloseTo(97, 2);
    }
  });

  it('reads the restricted rule beyond ±3 for WHO weight: the printed +4 cell has z 4, where plain LMS says less', () => {
    const row = rowsOf('who-2007-sd-cells.csv').find((one) => one.measure === 'weight' && one.sex === 'F' && one.age_months === '120');
    const printed = Number(row?.sd4);
    expect(zOf(zScore('who', 'weight', 'F', 120 * DAYS_IN_MONTH, printed))).toBeCloseTo(4, 3);
    const lms = lmsAt(WHO_2007_WEIGHT, 'F', 120);
    expect(lms && plainZ(lms, printed)).toBeLessThan(3.8);
  });

  it('does not use the restricted rule for WHO height: +4 SD of height stays one equal SD above +3', () => {
    const at = (z: number) => figure(valueAtZ('who', 'height', 'M', 300, z));
    expect(at(4) - at(3)).toBeCloseTo(at(1) - at(0), 9);
  });

  it('does not use the restricted rule on CDC tables: +4 SD of weight is plain LMS, M (1 + 4 L S)^(1/L)', () => {
    const { l, m, s } = lmsAt(CDC_2000_WEIGHT, 'M', 120.5) ?? { l: 0, m: 0, s: 0 };
    const at = (z: number) => figure(valueAtZ('cdc-2000', 'weight', 'M', 120.5 * 30.4375, z));
    for (const z of [-4, 4]) expect(at(z)).toBeCloseTo(m * (1 + z * l * s) ** (1 / l), 6);
    const restricted = m * (1 + 3 * l * s) ** (1 / l) * 2 - m * (1 + 2 * l * s) ** (1 / l);
    expect(Math.abs(at(4) - restricted)).toBeGreaterThan(1);
  });

  it('uses logarithms where L nears nothing, with no jump beside it', () => {
    // CDC's program switches at |L| < 0.01; ln is the limit of ((y/M)^L − 1)/L.
    expect(plainZ({ l: 0.005, m: 10, s: 0.1 }, 12)).toBeCloseTo(Math.log(1.2) / 0.1, 12);
    expect(Math.abs(plainZ({ l: 0.0101, m: 10, s: 0.1 }, 12) - plainZ({ l: 0.0099, m: 10, s: 0.1 }, 12))).toBeLessThan(0.002);
  });

  it('finds the z-score again from the value at a z-score, at any age, for both references', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('who' as const, 'cdc-2000' as const),
        fc.constantFrom('height' as const, 'weight' as const, 'bmi' as const),
        fc.constantFrom('F' as const, 'M' as const),
        fc.integer({ min: 0, max: 3650 }),
        fc.double({ min: -4.5, max: 3.2, noNaN: true }),
        (reference, measure, sex, ageDays, z) => {
          const there = valueAtZ(reference, measure, sex, ageDays, z);
          if (isNoAnswer(there)) return reference === 'cdc-2000';
          return Math.abs(zOf(zScore(reference, measure, sex, ageDays, there.value)) - z) < 1e-6;
        },
      ),
      { seed: 20061, numRuns: 3000 },
    );
  });

  it('calls a height of 3 m or 40 cm at 6 years hardly possible, and changes nothing', () => {
    for (const cm of [300, 40]) {
      const answer = zScore('who', 'height', 'F', 2192, cm);
      expect(isNoAnswer(answer) ? null : answer.doubt).toContain('slip');
      expect(Math.abs(zOf(answer))).toBeGreaterThan(6);
    }
  });
});

describe('no z-score, with a reason', () => {
  it.each([
    ['sex X', zScore('who', 'height', 'X', 1000, 90)],
    ['a day before birth', zScore('who', 'height', 'F', -1, 50)],
    ['an adult', zScore('cdc-2000', 'height', 'F', 7400, 165)],
    ['WHO height after 19 years', zScore('who', 'height', 'F', 6941, 165)],
    ['WHO weight after 10 years', zScore('who', 'weight', 'M', 3653, 32)],
    ['a height of 0', zScore('who', 'height', 'M', 3000, 0)],
    ['a figure that is no number', zScore('who', 'height', 'M', 3000, Number.NaN)],
    ['an age that is no number', zScore('who', 'height', 'M', Number.NaN, 100)],
  ])('%s', (_, answer) => {
    expect(isNoAnswer(answer) && answer.noAnswer.length > 20).toBe(true);
  });
});
