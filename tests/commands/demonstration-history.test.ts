import { describe, expect, it } from 'vitest';
import { historyPeople } from '@/app/_commands/demonstration/history-people';
import { calendarDay, daysBetween } from '@/lib/units/calendar-day';

/** What the pages of service figures need to live: months enough to freeze limits, cases enough for figures, one bad month. By our own judgement. */
describe.each(['2026-11-30', '2027-03-01', '2028-02-29'])('the two years behind the demonstration on %s', (named) => {
  const today = calendarDay(named);
  const people = historyPeople(today);
  const fitted = people.flatMap(({ pieces }) => pieces);

  it('are the same each time, of nobody with a name, and before the day', () => {
    expect(historyPeople(today)).toEqual(people);
    for (const { person, pieces, missed } of people) {
      expect(person.details.name).toMatch(/^Background \d\d$/);
      const days = [...person.visits.map(({ day }) => day), ...missed, ...pieces.flatMap((one) => [one.fitted, one.again ?? one.fitted])];
      expect(days.every((day) => daysBetween(day, today) > 0)).toBe(true);
      expect(person.phases.at(-1)?.kind).toBe('ended');
      for (const { ordered, delivered, fitted: fit } of pieces) expect(ordered <= delivered && delivered <= fit).toBe(true);
    }
  });

  it('have enough months and cases, few remakes, and a month that stands out', () => {
    const months = new Map<string, { n: number; remakes: number }>();
    for (const { fitted: day, outcome } of fitted) {
      const month = months.get(day.slice(0, 7)) ?? { n: 0, remakes: 0 };
      months.set(day.slice(0, 7), { n: month.n + 1, remakes: month.remakes + Number(outcome === 'remake') });
    }
    expect(months.size).toBeGreaterThanOrEqual(20);
    expect(fitted.length).toBeGreaterThan(300);
    const remakes = fitted.filter(({ outcome }) => outcome === 'remake').length / fitted.length;
    expect(remakes).toBeGreaterThan(0.03);
    expect(remakes).toBeLessThan(0.12);
    expect([...months.values()].some(({ n, remakes: of }) => n >= 8 && of / n > 0.25)).toBe(true);
    expect(people.flatMap(({ missed }) => missed).length).toBeGreaterThan(3);
  });
});
