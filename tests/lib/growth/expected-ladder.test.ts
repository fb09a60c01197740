import { describe, expect, it } from 'vitest';
import { sidesChanged } from '@/lib/doubts/sides-changed';
import { type LastLadder, lastVisitLine } from '@/lib/growth/expected-ladder';
import type { Ladder } from '@/lib/ladder/ladder';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { ladderAsTaped } from '@/lib/trend/last-ladder';
import { limbSeries } from '@/lib/trend/limb-series';
import type { SeriesVisit } from '@/lib/trend/series-visit';
import { calendarDay, dayNumber } from '@/lib/units/calendar-day';
import { ladderOf, recordOf, visitOf } from '../made-up-ladder';
import { LEG_CM, legOf } from '../prompts/made-up-piece';

const weighed = { weight: '70 kg', height: '170 cm' };
const last = (ladder: Ladder): LastLadder => {
  const [series] = limbSeries(recordOf([visitOf('2026-01-05', [ladder], weighed)]), DEFAULT_POLICY);
  return ladderAsTaped(series?.visits[0] as SeriesVisit);
};
const LAST = last(legOf());
const today = (ladder: LastLadder) => ({
  day: dayNumber(calendarDay('2026-01-20')),
  body: ladder.body,
  tape: { readingMm: 3, placementMm: 5 },
});

describe('what the last visit leads one to expect', () => {
  const line = lastVisitLine(LAST, legOf(), today(LAST), false);

  it('is its own girth at every rung where the body stayed', () => {
    LEG_CM.forEach((girth, rung) => {
      expect(line?.expectedMm(40 * (rung + 1))).toBeCloseTo(10 * girth, 6);
      expect(line?.shownMm(40 * (rung + 1))).toBeCloseTo(10 * girth, 6);
    });
  });

  it('is carried on along the outer slope for six centimetres, and shown only where it was taped', () => {
    // 49.8 and 52.5 cm are the two uppermost girths, 22.6 and 22 the two lowest, 4 cm apart.
    expect(line?.expectedMm(640)).toBeCloseTo(552, 6);
    expect(line?.expectedMm(655)).toBeCloseTo(525 + (55 * 27) / 40, 6);
    expect(line?.expectedMm(0)).toBeCloseTo(214, 6);
    expect(line?.expectedMm(661)).toBeUndefined();
    expect(line?.expectedMm(-21)).toBeUndefined();
    expect(line?.shownMm(640)).toBeUndefined();
  });

  it('reads a place that misses an outer rung by less than 8 mm at that rung', () => {
    expect(line?.shownMm(607)).toBeCloseTo(525, 6);
    expect(line?.shownMm(33)).toBeCloseTo(220, 6);
    expect(line?.shownMm(608.1)).toBeUndefined();
    expect(line?.shownMm(31.9)).toBeUndefined();
  });
});

describe('left and right changed round', () => {
  const taper = (by: number) => legOf(by, { at: (place) => 0.05 * place * (by - 1) * 20 });
  const [small, large] = [taper(0.95), taper(1.05)];
  const asked = (one: Ladder, other: Ladder, lastOne: LastLadder | undefined, lastOther: LastLadder | undefined) =>
    sidesChanged(
      [
        { ladder: one, rowsMm: [], affected: true, ...(lastOne ? { last: lastOne } : {}) },
        { ladder: other, rowsMm: [], affected: true, ...(lastOther ? { last: lastOther } : {}) },
      ] as never,
      today(LAST),
    );

  it('is asked about where both fit the other side’s last visit, and only then', () => {
    expect(asked(large, small, last(small), last(large))?.kind).toBe('sides-swapped');
    expect(asked(small, large, last(small), last(large))).toBeUndefined();
  });

  it('is not asked about where one of them cannot be set against both last visits', () => {
    const elsewhere = ladderOf({
      girths: [
        [-4, 30],
        [0, 31],
        [4, 33],
      ],
      zero: 'the scar',
    });
    expect(asked(large, elsewhere, last(small), last(large))).toBeUndefined();
    expect(asked(large, small, last(small), undefined)).toBeUndefined();
  });
});
