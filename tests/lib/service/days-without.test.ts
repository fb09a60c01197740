import { describe, expect, it } from 'vitest';
import { type Life, wayAhead } from '@/lib/service/days-without';
import { cumulativeNormal } from '@/lib/statistics/normal';
import { seeded } from '@/tests/cohort/random';

const GRID = Array.from({ length: 15 }, (_, week) => week * 7);
const SURE = { makingSpreadPct: 1e-9, lifeSpreadDays: 1e-9 };
const never = { grid: GRID, chances: GRID.map(() => 0) };
const old = (more: Partial<Life> = {}): Life => ({ ...never, wornOutAt: 1000, hereAt: 0, startedAt: 0, lifeDays: 100, ...more });

describe('days without a working piece', () => {
  it('are those between the end of the old piece and the arrival of the next, where all is sure', () => {
    const way = wayAhead({
      olds: [old({ wornOutAt: 10 })],
      orderAt: 7,
      makingDays: 24,
      ...SURE,
      next: { ...never, lifeDays: 500 },
      grid: GRID,
    });
    expect([way.daysWithout.median, way.daysWithout.ninety].map(Math.round)).toEqual([21, 21]);
    expect(way.noneAt.map((chance) => chance === 1)).toEqual(GRID.map((day) => day >= 10 && day < 31));
    expect([way.lifeUsed, way.piecesGivenUp].map((share) => Number(share.toFixed(3)))).toEqual([0.1, 0.9]);
  });

  it('are not those on which a piece that is awaited is here already: from day 20, and not before', () => {
    // One works for 10 days, one from 20 to 60, the next from day 74: without are 10 to 20 and 60 to 74.
    const olds = [old({ wornOutAt: 10 }), old({ hereAt: 20, startedAt: 20, wornOutAt: 60 })];
    const way = wayAhead({ olds, orderAt: 50, makingDays: 24, ...SURE, next: { ...never, lifeDays: 500 }, grid: GRID });
    expect([way.daysWithout.median, way.daysWithout.ninety].map(Math.round)).toEqual([24, 24]);
    expect(way.noneAt.map((chance) => chance === 1)).toEqual(GRID.map((day) => (day >= 10 && day < 20) || (day >= 60 && day < 74)));
    const early = wayAhead({ olds, orderAt: 0, makingDays: 15, ...SURE, next: { ...never, lifeDays: 500 }, grid: GRID });
    expect(Math.round(early.daysWithout.median)).toBe(5);
  });

  it('have the closed form of a piece outgrown on any day of a hundred alike: none by median, 20 days nine times in ten', () => {
    // T uniform on 0–100, the next one here on day 30: days without are max(0, 30 − T), above 20 for T < 10.
    const hundred = Array.from({ length: 15 }, (_, week) => (week * 100) / 14);
    const olds = [old({ grid: hundred, chances: hundred.map((day) => day / 100) })];
    const way = wayAhead({ olds, orderAt: 0, makingDays: 30, ...SURE, next: { ...never, lifeDays: 500 }, grid: GRID });
    expect(way.daysWithout.median).toBe(0);
    expect(Math.abs(way.daysWithout.ninety - 20)).toBeLessThan(1);
    expect(Math.abs((way.noneAt[2] as number) - 0.14)).toBeLessThan(0.01);
  });

  it('follow the normal of wear', () => {
    const way = wayAhead({
      ...{ olds: [old({ wornOutAt: 40 })], orderAt: 500, makingDays: 20, makingSpreadPct: 50, lifeSpreadDays: 10, grid: GRID },
      next: { ...never, lifeDays: 90 },
    });
    for (const [week, day] of GRID.entries())
      expect(Math.abs((way.noneAt[week] as number) - cumulativeNormal((day - 40) / 10))).toBeLessThan(0.06);
  });

  it('agree with runs drawn by chance, by other code', () => {
    const chances = GRID.map((day) => 1 - Math.exp(-day / 60));
    const later = GRID.map((day) => 1 - Math.exp(-day / 80));
    const grid = GRID;
    const way = wayAhead({
      ...{ olds: [old({ chances, wornOutAt: 55 }), old({ chances, wornOutAt: 45 })], orderAt: 14, makingDays: 14 },
      ...{ makingSpreadPct: 50, lifeSpreadDays: 10, grid, next: { grid: grid.map((day) => day + 14), chances: later, lifeDays: 90 } },
    });
    const random = seeded(11);
    const normal = () => random.normal(1);
    const runs = 6000;
    const none = grid.map(() => 0);
    const days: number[] = [];
    for (let run = 0; run < runs; run++) {
      const [u, wear, slow] = [random.uniform(), normal(), normal()];
      const gone = -60 * Math.log(1 - u);
      const fails = Math.max(0, Math.min(gone, 55 + 10 * wear));
      const arrives = 14 + 14 * 1.5 ** (slow / 1.2816);
      const helped = 14 - 80 * Math.log(1 - u) > arrives ? arrives : Number.POSITIVE_INFINITY;
      let without = 0;
      for (let day = 0; day < 98; day++) if (day >= fails && day < helped) without += 1;
      for (const [week, day] of grid.entries()) if (day >= fails && day < helped) none[week] = (none[week] ?? 0) + 1;
      days.push(without);
    }
    days.sort((one, other) => one - other);
    for (const [week, chance] of way.noneAt.entries()) expect(Math.abs(chance - (none[week] as number) / runs)).toBeLessThan(0.05);
    expect(Math.abs(way.daysWithout.median - (days[runs / 2] as number))).toBeLessThan(2);
    expect(Math.abs(way.daysWithout.ninety - (days[runs * 0.9] as number))).toBeLessThan(4);
  });
});
