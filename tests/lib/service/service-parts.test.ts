import { describe, expect, it } from 'vitest';
import { betweenRemakes, changedParts, countsOfParts, NO_CASES, partsOfPatient, summedParts } from '@/lib/service/service-parts';
import { servicePeriod } from '@/lib/service/service-period';
import { calendarDay } from '@/lib/units/calendar-day';
import { seeded } from '@/tests/cohort/random';

const MONTHS = Array.from({ length: 24 }, (_, at) => `${2025 + Math.floor(at / 12)}-${String((at % 12) + 1).padStart(2, '0')}`);
const random = seeded(35);
const below = (end: number) => Math.floor(random.uniform() * end);

/** Days of so many patients in care, some months with two limbs, some with none. */
const patients = Array.from({ length: 60 }, () =>
  MONTHS.flatMap((month) =>
    Array.from({ length: below(3) }, () => {
      const none = { phase: null, lost: null, kept: null };
      return { kind: 'without' as const, day: `${month}-01`, whole: 28 + below(4), some: below(4) === 0 ? below(28) : 0, ...none };
    }),
  ),
);

describe('parts of the service counts', () => {
  it('sum to the days of a period squared by patient, whichever month it begins in', () => {
    const parts = summedParts(patients.flatMap((care) => partsOfPatient({ ...NO_CASES, care })));
    for (const from of [null, ...MONTHS]) {
      const period = { choice: 'all', from, to: '2026-12' } as Parameters<typeof countsOfParts>[1];
      const sums = patients
        .map((care) => care.filter(({ day }) => from === null || day >= from))
        .filter((care) => care.length > 0)
        .map((care) => ({ w: care.reduce((sum, { whole }) => sum + whole, 0), s: care.reduce((sum, { some }) => sum + some, 0) }));
      const total = (of: (one: { w: number; s: number }) => number) => sums.reduce((sum, one) => sum + of(one), 0);
      expect(countsOfParts(parts, period)?.care.without, String(from)).toEqual({
        ...{ n: sums.length, withAny: total(({ s }) => (s > 0 ? 1 : 0)), whole: total(({ w }) => w), some: total(({ s }) => s) },
        ...{ wholeSquare: total(({ w }) => w * w), someSquare: total(({ s }) => s * s), product: total(({ w, s }) => w * s) },
      });
    }
  });

  it('are taken off again to the last digit, and say nothing of a period that ends before them', () => {
    const [one = [], other = []] = patients;
    const [before, after] = [partsOfPatient({ ...NO_CASES, care: one }), partsOfPatient({ ...NO_CASES, care: other })];
    expect(summedParts([...before, ...changedParts(before, after)])).toEqual(after);
    expect(changedParts(after, after)).toEqual([]);
    expect(countsOfParts(after, servicePeriod('all', calendarDay('2025-06-01')))).toBeUndefined();
  });

  it('count what lies between remakes, those of one day last', () => {
    const days = [
      { day: '2026-01-03', others: 1, remakes: 2 },
      { day: '2026-01-01', others: 5, remakes: 1 },
      { day: '2026-01-02', others: 2, remakes: 0 },
      { day: '2026-01-04', others: 7, remakes: 0 },
    ];
    expect(betweenRemakes(days)).toEqual([3, 0]);
    expect(betweenRemakes(days.slice(1, 3))).toEqual([]);
  });
});
