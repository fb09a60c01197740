import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { serviceDictionary, serviceTable } from '@/lib/exchange/service-table';
import { daysSpread } from '@/lib/service/days-spread';
import { chartOfRemakes } from '@/lib/service/service-charts';
import type { FittingCount, Month, ServiceCounts } from '@/lib/service/service-counts';
import { serviceFigures } from '@/lib/service/service-figures';
import { daysOfPeriod, isInPeriod, servicePeriod } from '@/lib/service/service-period';
import { calendarDay } from '@/lib/units/calendar-day';

const NOTHING: ServiceCounts = {
  ...{ fittings: [], kept: [], delivered: [], booked: [], betweenRemakes: [], answers: [] },
  right: { verdicts: [], misses: [], outlooks: [] },
  care: { without: { n: 0, withAny: 0, whole: 0, some: 0, wholeSquare: 0, someSquare: 0, product: 0 }, excess: [] },
};
const month = (text: string) => text as Month;
/** The worked example of a g chart (section g); its upper limit is 36.3164. */
const GAPS = [7, 12, 3, 9, 14, 6, 10];
const TODAY = calendarDay('2026-11-30');

function fittings(of: string, all: number, remakes: number, reason = 'girth wrong'): FittingCount[] {
  const row = { month: month(of), form: 'glove', isFirst: true } as const;
  return [
    { ...row, outcome: 'keep', reason: null, n: all - remakes },
    { ...row, outcome: 'remake', reason, n: remakes },
  ];
}

const csvTable = (text: string): string[][] => parse(text);

describe('the spread of counted days', () => {
  /** Sums of binomial coefficients by whole numbers: nothing in common with the logarithms of the code. */
  function exactRank(n: number): number {
    let [coefficient, below, rank] = [1n, 0n, 0];
    for (;;) {
      below += coefficient;
      if (below * 40n > 2n ** BigInt(n)) return rank;
      coefficient = (coefficient * BigInt(n - rank)) / BigInt(rank + 1);
      rank += 1;
    }
  }

  it('takes the range of a median from the exact binomial, also of very many cases', () => {
    for (const n of [20, 21, 25, 40, 101, 1000, 3001]) {
      const spread = daysSpread(Array.from({ length: n }, (_, index) => ({ days: index + 1, n: 1 })));
      expect([n, spread?.low, spread?.high]).toEqual([n, exactRank(n), n + 1 - exactRank(n)]);
    }
  });

  it('says the example of its description, counts cases that had the same days, and says nothing of nineteen', () => {
    const twenty = Array.from({ length: 20 }, (_, index) => ({ days: index + 1, n: 1 }));
    expect(daysSpread(twenty)).toEqual({ n: 20, median: 10.5, low: 6, high: 15, nineInTen: 18 });
    expect(
      daysSpread([
        { days: 9, n: 5 },
        { days: 4, n: 15 },
      ]),
    ).toMatchObject({ n: 20, median: 4, nineInTen: 9 });
    expect(daysSpread(twenty.slice(1))).toBeUndefined();
  });
});

describe('periods', () => {
  it('are whole calendar months, also over the turn of a year', () => {
    const twelve = servicePeriod('twelve-months', TODAY);
    expect([twelve.from, twelve.to, servicePeriod('year', TODAY).from]).toEqual(['2025-12', '2026-11', '2026-01']);
    expect(servicePeriod('twelve-months', calendarDay('2026-12-01')).from).toBe('2026-01');
    expect(daysOfPeriod(servicePeriod('all', calendarDay('2026-12-31')))).toEqual({ from: null, before: '2027-01-01' });
    expect(daysOfPeriod(twelve)).toEqual({ from: '2025-12-01', before: '2026-12-01' });
    expect(['2025-11', '2025-12', '2026-11', '2026-12'].map((one) => isInPeriod(month(one), twelve))).toEqual([false, true, true, false]);
  });
});

describe('figures of the service', () => {
  it('give no answer with its reason where nothing was counted, never 0', () => {
    const figures = serviceFigures(NOTHING, servicePeriod('year', TODAY));
    const { firstFits, remakes, toFit, parts, making, prompts, remakeChart, daysChart } = figures;
    for (const figure of [firstFits, remakes, toFit, parts, making, prompts, remakeChart, daysChart])
      expect(figure).toMatchObject({ noAnswer: expect.stringMatching(/\w/) });
    const rows = csvTable(serviceTable(figures)).slice(1);
    const [value, noAnswer] = ['value', 'no_answer'].map((name) => csvTable(serviceTable(figures))[0]?.indexOf(name) ?? -1);
    expect(rows.every((row) => row[value as number] === '' && row[noAnswer as number] !== '')).toBe(true);
  });

  it('chart a month that stands out and say which: the worked example of shares (section g: 12 of 40 above 0.2966)', () => {
    const months = [
      [42, 5],
      [38, 4],
      [45, 3],
      [40, 12],
      [36, 4],
      [44, 5],
    ] as const;
    const counted = months.flatMap(([all, remakes], index) => fittings(`2026-0${index + 1}`, all, remakes));
    const chart = chartOfRemakes({ ...NOTHING, fittings: counted });
    expect(chart).toMatchObject({
      kind: 'shares',
      isFrozen: false,
      signals: ['Apr 2026 stands outside, above its upper limit: 12 of 40.'],
    });
    expect(chart?.chart.limits[3]?.high.toFixed(4)).toBe('0.2966');
  });

  it('chart what lies between remakes where they are rare, and freeze limits from the twentieth month on', () => {
    const rare = Array.from({ length: 12 }, (_, index) => fittings(`2025-${String(index + 1).padStart(2, '0')}`, 10, index % 2)).flat();
    const chart = chartOfRemakes({ ...NOTHING, fittings: rare, betweenRemakes: [...GAPS, ...GAPS, ...GAPS, 40] });
    expect(chart).toMatchObject({
      kind: 'between',
      signals: ['before remake 23 stands outside, above its upper limit: 40 fittings without a remake.'],
    });
    const many = Array.from({ length: 20 }, (_, index) =>
      fittings(`${2024 + Math.floor(index / 12)}-${String((index % 12) + 1).padStart(2, '0')}`, 40, 4),
    ).flat();
    const [before, after] = [
      chartOfRemakes({ ...NOTHING, fittings: many }),
      chartOfRemakes({ ...NOTHING, fittings: [...many, ...fittings('2026-01', 40, 30)] }),
    ];
    expect(before?.isFrozen).toBe(true);
    expect(after?.chart.centre).toBe(before?.chart.centre);
  });

  it('go out as CSV that a spreadsheet takes for no formula, every column and figure in the dictionary', () => {
    const counted = { ...NOTHING, fittings: fittings('2026-10', 40, 3, '=cmd|x') };
    const table = csvTable(serviceTable(serviceFigures(counted, servicePeriod('year', TODAY))));
    const told = csvTable(serviceDictionary()).map(([what, name]) => `${what} ${name}`);
    expect(table[0]?.map((name) => `column ${name}`).filter((name) => !told.includes(name))).toEqual([]);
    expect(
      table
        .slice(1)
        .map(([figure]) => `figure ${figure}`)
        .filter((figure) => !told.includes(figure)),
    ).toEqual([]);
    const column = (name: string) => table[0]?.indexOf(name) as number;
    const reason = table.find((row) => row[column('by')] === 'reason');
    expect(reason?.[column('of')]).toBe("'=cmd|x");
    // Wilson 1927: 3 of 40 is 2.58 to 19.86 %.
    expect(['low', 'high'].map((name) => Number(reason?.[column(name)]).toFixed(4))).toEqual(['0.0258', '0.1986']);
  });
});
