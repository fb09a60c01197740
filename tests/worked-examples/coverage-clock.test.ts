import { describe, expect, it } from 'vitest';
import type { CoverageRule } from '@/lib/record/coverage';
import { coverageRulesSchema } from '@/lib/record/coverage-schema';
import { coverageClock, isException } from '@/lib/schedule/coverage-clock';
import { calendarDay } from '@/lib/units/calendar-day';

/**
 * Configured as a clinic in the United States would: Medicare, lymphoedema compression items from 1 January 2024.
 * Day: 3 garments for each affected body part every 6 months; night: 2 every 2 years; replaced outside it when lost, stolen,
 * irreparably damaged, or when the condition changes. Source: 42 CFR 414.1680(a) and the agency's public page on the benefit.
 * How a replacement within a period moves the clock is not said there: both readings of a period are tested.
 */
const RULE: CoverageRule = {
  id: 'example',
  payer: 'US Medicare, lymphoedema',
  lines: [
    { use: 'day', quantity: 3, months: 6, clock: 'rolling' },
    { use: 'night', quantity: 2, months: 24, clock: 'rolling' },
  ],
  exceptions: ['lost', 'damaged', 'condition changed'],
  source: '42 CFR 414.1680(a)',
};
const [DAY, NIGHT] = RULE.lines as [CoverageRule['lines'][number], CoverageRule['lines'][number]];
const day = calendarDay;
const issued = (...days: string[]) => days.map((one) => ({ day: day(one), exception: false }));

describe('a coverage rule as configured data', () => {
  it('is accepted as a clinic writes it', () => {
    expect(coverageRulesSchema.safeParse([RULE]).success).toBe(true);
    expect(coverageRulesSchema.safeParse([{ ...RULE, lines: [{ ...DAY, quantity: 0 }] }]).success).toBe(false);
  });

  it('3 day pieces in 6 months: two used leave one; three used leave none until six months after the first', () => {
    const since = day('2024-01-01');
    expect(coverageClock(DAY, issued('2024-02-10', '2024-02-10'), since, day('2024-03-01'))).toMatchObject({
      used: 2,
      left: 1,
      opensOn: null,
    });
    const three = issued('2024-02-10', '2024-02-10', '2024-05-02');
    expect(coverageClock(DAY, three, since, day('2024-08-09'))).toMatchObject({ used: 3, left: 0, opensOn: '2024-08-10' });
    expect(coverageClock(DAY, three, since, day('2024-08-10'))).toMatchObject({ used: 1, left: 2, opensOn: null });
  });

  it('2 night pieces in 2 years, over a leap day', () => {
    const two = issued('2024-02-29', '2024-06-01');
    expect(coverageClock(NIGHT, two, day('2024-01-01'), day('2026-02-27'))).toMatchObject({ used: 2, left: 0, opensOn: '2026-02-28' });
    expect(coverageClock(NIGHT, two, day('2024-01-01'), day('2026-02-28'))).toMatchObject({ used: 1, left: 1 });
  });

  it('a lost or damaged piece, or a changed condition, is covered outside the clock and does not use it up', () => {
    expect((['lost', 'damaged', 'condition changed'] as const).map((reason) => isException(RULE, reason))).toEqual([true, true, true]);
    expect((['worn out', 'second piece'] as const).map((reason) => isException(RULE, reason))).toEqual([false, false]);
    const withLost = [...issued('2024-02-10', '2024-02-10', '2024-05-02'), { day: day('2024-05-20'), exception: true }];
    expect(coverageClock(DAY, withLost, day('2024-01-01'), day('2024-06-01'))).toMatchObject({ used: 3, left: 0, opensOn: '2024-08-10' });
  });

  it('more than covered were handed out: the clock opens when one place is free, not when the first leaves', () => {
    const four = issued('2024-01-10', '2024-02-10', '2024-03-10', '2024-04-10');
    expect(coverageClock(DAY, four, day('2024-01-01'), day('2024-05-01'))).toMatchObject({ used: 4, left: 0, opensOn: '2024-08-10' });
  });
});

describe('fixed periods', () => {
  const fixed = { ...DAY, clock: 'fixed' as const };

  it('run one after another from the first day; a new one opens all of it', () => {
    const three = issued('2024-06-20', '2024-06-20', '2024-06-20');
    expect(coverageClock(fixed, three, day('2024-01-01'), day('2024-06-30'))).toMatchObject({
      from: '2024-01-01',
      used: 3,
      left: 0,
      opensOn: '2024-07-01',
    });
    expect(coverageClock(fixed, three, day('2024-01-01'), day('2024-07-01'))).toMatchObject({ from: '2024-07-01', used: 0, left: 3 });
  });

  it.each([
    ['2023-08-31', '2024-02-28', '2024-02-29'],
    ['2022-08-31', '2023-02-27', '2023-02-28'],
    ['2024-02-29', '2024-08-28', '2024-08-29'],
  ])('from %s: still the first period on %s, the second opens on %s (month ends)', (since, last, opens) => {
    const used = issued(since, since, since);
    expect(coverageClock(fixed, used, day(since), day(last))).toMatchObject({ left: 0, opensOn: opens });
    expect(coverageClock(fixed, used, day(since), day(opens))).toMatchObject({ from: opens, left: 3 });
  });

  it('do not drift: the third period from 31 August starts on 31 August again', () => {
    expect(coverageClock(fixed, [], day('2023-08-31'), day('2024-08-31')).from).toBe('2024-08-31');
  });
});
