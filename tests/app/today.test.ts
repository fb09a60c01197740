import { describe, expect, it } from 'vitest';
import { todayIn } from '@/app/_auth/today';

describe('the day it is now', () => {
  /** Offsets from UTC in November: Auckland +13, London 0, Los Angeles −8. Source: IANA time zone database. */
  it.each([
    ['2026-11-25T10:59:59Z', 'Pacific/Auckland', '2026-11-25'],
    ['2026-11-25T11:00:00Z', 'Pacific/Auckland', '2026-11-26'],
    ['2026-11-25T00:00:00Z', 'Europe/London', '2026-11-25'],
    ['2026-11-25T07:59:59Z', 'America/Los_Angeles', '2026-11-24'],
    ['2026-11-25T08:00:00Z', 'America/Los_Angeles', '2026-11-25'],
  ])('at %s in %s is %s', (moment, zone, day) => {
    expect(todayIn(zone, new Date(moment))).toBe(day);
  });
});
