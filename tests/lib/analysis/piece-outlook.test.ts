import { describe, expect, it } from 'vitest';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { previewPiece } from '@/lib/orders/preview-piece';
import { isNoAnswer } from '@/lib/outcome';
import { addDays, calendarDay, daysBetween } from '@/lib/units/calendar-day';
import { recordOf, visitOf } from '../made-up-ladder';
import { analysed, LEG_CM, legOf, pieceOf } from '../prompts/made-up-piece';

const child = { born: calendarDay('2017-03-01'), sex: 'F' as const };
const grown = { height: '170 cm', weight: '70 kg' };

function pieceAt(
  visits: Parameters<typeof recordOf>[0],
  rest: Parameters<typeof pieceOf>[1],
  record: Parameters<typeof recordOf>[1] = {},
  today = '2026-03-01',
) {
  const [piece] = analysed(recordOf(visits, { ...record, pieces: [pieceOf('2026-01-05', rest)] }), today).pieces;
  if (!piece) throw new Error('no piece');
  return piece;
}

describe('the fit of a piece today', () => {
  it('is 1 everywhere on the ladder it was cut from', () => {
    const { fit } = pieceAt([visitOf('2026-01-05', [legOf()], grown)], {});
    if (isNoAnswer(fit)) throw new Error(fit.noAnswer);
    expect(fit.places.map((place) => place.tightness)).toEqual(LEG_CM.slice(0, 7).map(() => 1));
  });

  it('is the worked ratio at every place it covers when the limb is larger by 3 %', () => {
    const { fit } = pieceAt([visitOf('2026-01-05', [legOf()], grown), visitOf('2026-02-05', [legOf(1.03)], grown)], { reductionPct: 10 });
    if (isNoAnswer(fit)) throw new Error(fit.noAnswer);
    // 3 % at r 10 % is 1.262 (worked figure); girths are rounded to 0.1 mm here.
    for (const place of fit.places) expect(place.tightness).toBeCloseTo(1.262, 1);
    expect(fit.places.every((place) => place.sd > 0)).toBe(true);
  });

  it('follows the anatomy of a child whose leg has grown longer, and says how far it has drifted', () => {
    const visits = [
      visitOf('2026-01-05', [legOf()], { height: '130 cm', weight: '28 kg' }),
      visitOf('2026-07-05', [legOf(1, { stretch: 1.04 })], { height: '134.3 cm', weight: '28 kg' }),
    ];
    const { fit } = pieceAt(visits, {}, child, '2026-07-10');
    if (isNoAnswer(fit)) throw new Error(fit.noAnswer);
    for (const place of fit.places) expect(place.tightness).toBeCloseTo(1, 1);
    expect(fit.lengthDriftMm).toBeCloseTo(0.04 * 280, -1);
  });

  it('has no answer by name without its ladder, and on a limb that was not measured again in common', () => {
    expect(pieceAt([visitOf('2026-02-05', [legOf()], grown)], {}).fit).toEqual({
      noAnswer: 'No ladder of 2026-01-05 is on record for this limb.',
    });
  });
});

describe('the outlook of a piece', () => {
  it('of an adult has no outgrow day in the middle, and no room to grow', () => {
    const one = pieceAt([visitOf('2026-01-05', [legOf()], grown)], { firstWorn: calendarDay('2026-01-19') });
    if (isNoAnswer(one.outgrow) || isNoAnswer(one.room)) throw new Error('no outlook');
    expect([one.outgrow.day, one.room.middleMm]).toEqual([null, 0]);
  });

  it('of a child comes sooner for a smaller reduction, the early day before the middle one', () => {
    const visits = [visitOf('2026-01-05', [legOf()], { height: '130 cm', weight: '28 kg' })];
    const days = [10, 15, 20].map((reductionPct) => {
      const { outgrow } = pieceAt(visits, { reductionPct }, child);
      if (isNoAnswer(outgrow) || !outgrow.earlyDay) throw new Error('no outgrow day');
      if (outgrow.day) expect(outgrow.earlyDay < outgrow.day).toBe(true);
      return daysBetween(calendarDay('2026-01-05'), outgrow.earlyDay);
    });
    expect(days).toEqual([...days].sort((one, other) => one - other));
    expect(new Set(days).size).toBe(3);
  });

  it('gives room by the strain algebra, from delivery to the end of its life, rounded up to the tape step', () => {
    const visits = [visitOf('2026-01-05', [legOf()], { height: '130 cm', weight: '28 kg' })];
    const { room } = pieceAt(visits, { lifeDays: 120 }, child, '2026-02-01');
    if (isNoAnswer(room)) throw new Error(room.noAnswer);
    expect([room.delivery, room.endOfLife]).toEqual([addDays(calendarDay('2026-02-01'), 14), addDays(calendarDay('2026-02-01'), 134)]);
    for (const place of room.places) {
      expect(Number.isInteger(place.middleMm) && Number.isInteger(place.highMm)).toBe(true);
      expect(place.highMm).toBeGreaterThanOrEqual(place.middleMm);
      // Stitched away, the piece is as tight at the end as a limb larger by what the room would have held.
      expect(place.tightnessAtEnd).toBeGreaterThan(place.tightnessAtDelivery);
    }
    const girth = 365 * 0.85;
    const growth = room.middleMm / girth;
    expect(growth).toBeGreaterThan(0.005);
    expect(growth).toBeLessThan(0.03);
  });

  it('gives room at the rungs of the newest ladder, to which the next piece is cut: what an order of the same figures keeps', () => {
    const tall = legOf(1.02, { stretch: 1.04 });
    const visits = [
      visitOf('2026-01-05', [legOf()], { height: '130 cm', weight: '28 kg' }),
      visitOf('2026-07-05', [tall], { height: '134.3 cm', weight: '29 kg' }),
    ];
    const covers = { from: 'ankle-crease', to: 'gluteal-fold' } as const;
    const today = calendarDay('2026-07-10');
    const { room } = pieceAt(visits, { covers, lifeDays: 120 }, child, today);
    const kept = previewPiece(
      recordOf(visits, child),
      { ...pieceOf('2026-07-05', { covers, lifeDays: 120 }), cutFromVisitId: null },
      DEFAULT_POLICY,
      today,
    ).piece.room;
    if (isNoAnswer(room) || isNoAnswer(kept)) throw new Error('no room');
    expect(room.places.map(({ placeMm }) => Math.round(placeMm))).toEqual(LEG_CM.map((_, rung) => Math.round(41.6 * (rung + 1))));
    expect([room.middleMm, room.highMm, room.places]).toEqual([kept.middleMm, kept.highMm, kept.places]);
  });

  it('is refused by name to a child of sex X, to one without weight, and further than twelve months from the last ladder', () => {
    const visits = [visitOf('2026-01-05', [legOf()], { height: '130 cm', weight: '28 kg' })];
    expect(pieceAt(visits, {}, { ...child, sex: 'X' }).outgrow).toHaveProperty('noAnswer');
    expect(pieceAt([visitOf('2026-01-05', [legOf()], { height: '130 cm' })], {}, child).outgrow).toEqual({
      noAnswer: 'A child needs height and weight near the last measuring to look ahead.',
    });
    expect(pieceAt(visits, {}, child, '2027-06-01').room).toHaveProperty('noAnswer');
  });
});
