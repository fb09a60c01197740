import { describe, expect, it } from 'vitest';
import { type GrowthMeasure, type GrowthReference, type MeasuredHow, servingTable } from '@/lib/growth/growth-reference';
import { valueAtZ, zScore } from '@/lib/growth/z-score';
import { isNoAnswer } from '@/lib/outcome';
import { calendarDay, daysBetween } from '@/lib/units/calendar-day';

const nameAt = (reference: GrowthReference, measure: GrowthMeasure, ageDays: number, how?: MeasuredHow) => {
  const serving = servingTable(reference, measure, 'F', ageDays, how);
  return isNoAnswer(serving) ? serving.noAnswer : `${serving.table.name} ${serving.table.edition}`;
};
const zOf = (answer: ReturnType<typeof zScore>) => (isNoAnswer(answer) ? Number.NaN : answer.z);

describe('which table serves which age', () => {
  it('reads WHO under 2 years and CDC from 2 years for a clinic on CDC (MMWR 2010;59(RR-9))', () => {
    expect(nameAt('cdc-2000', 'weight', 730)).toBe('WHO Child Growth Standards 2006');
    expect(nameAt('cdc-2000', 'weight', 731)).toBe('CDC growth charts 2000');
  });

  it('changes from WHO 2006 to WHO 2007 after day 1826, the last day of the daily tables', () => {
    expect(nameAt('who', 'height', 1826)).toBe('WHO Child Growth Standards 2006');
    expect(nameAt('who', 'height', 1827)).toBe('WHO Reference 5–19 years 2007');
  });

  it('shows the published fall of the median at the 60-month join: 109.96 to 109.73 cm boys, 109.42 to 109.07 cm girls', () => {
    // WHO 2006 height at 60 months and the 60-month lead-in row of WHO 2007. The day after the join stands 0.02 months above that row.
    for (const [sex, before, after] of [
      ['M', 109.96, 109.73],
      ['F', 109.42, 109.07],
    ] as const) {
      const last = valueAtZ('who', 'height', sex, 1826, 0);
      const next = valueAtZ('who', 'height', sex, 1827, 0);
      expect(isNoAnswer(last) ? null : last.value).toBeCloseTo(before, 1);
      expect(isNoAnswer(next) ? null : next.value).toBeCloseTo(after, 1);
    }
  });

  it('reads a CDC child of 30 months who was measured lying from the length table, and at 40 months takes 0.7 cm off', () => {
    const lying = servingTable('cdc-2000', 'height', 'F', 913, 'lying');
    expect(isNoAnswer(lying) ? null : lying.table.ages.toString().startsWith('0 0.5')).toBe(true);
    const older = servingTable('cdc-2000', 'height', 'F', 1218, 'lying');
    expect(isNoAnswer(older) ? null : older.addToHeightCm).toBe(-0.7);
  });

  it('bridges lying and standing by 0.7 cm around 2 years, as WHO does', () => {
    // WHO 2006: length median of girls at 24 months 86.4 lying, 85.7 standing (printed monthly tables).
    expect(zOf(zScore('who', 'height', 'F', 731, 86.43, 'lying'))).toBeCloseTo(zOf(zScore('who', 'height', 'F', 731, 85.73)), 9);
    expect(zOf(zScore('who', 'height', 'F', 700, 84, 'standing'))).toBeCloseTo(zOf(zScore('who', 'height', 'F', 700, 84.7)), 9);
    expect(zOf(zScore('who', 'weight', 'F', 731, 12, 'lying'))).toBe(zOf(zScore('who', 'weight', 'F', 731, 12)));
  });
});

describe('age in days and months', () => {
  it('counts leap days: a second birthday comes after 730 or 731 days, and only the latter is 24 months old', () => {
    // Calendar arithmetic: 29 February 2024 lies between the first two days and not between the second two.
    const leap = daysBetween(calendarDay('2023-02-15'), calendarDay('2025-02-15'));
    const plain = daysBetween(calendarDay('2021-03-01'), calendarDay('2023-03-01'));
    expect([leap, plain]).toEqual([731, 730]);
    expect(nameAt('cdc-2000', 'height', leap)).toContain('CDC');
    expect(nameAt('cdc-2000', 'height', plain)).toContain('WHO');
  });

  it('counts a child born on 29 February from that day', () => {
    const born = calendarDay('2020-02-29');
    expect(daysBetween(born, calendarDay('2024-02-29'))).toBe(1461);
    expect(daysBetween(born, calendarDay('2025-02-28'))).toBe(1826);
    expect(daysBetween(born, calendarDay('2025-03-01'))).toBe(1827);
  });
});
