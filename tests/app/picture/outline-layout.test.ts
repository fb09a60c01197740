import { describe, expect, it } from 'vitest';
import type { LimbPicture, PictureLimb, PictureStrip } from '@/app/_picture/limb-picture';
import { outlineLayout } from '@/app/_picture/outline-layout';
import { calendarDay } from '@/lib/units/calendar-day';

const DAY = calendarDay('2026-11-24');
const HEIGHTS = Array.from({ length: 18 }, (_, rung) => 40 + rung * 38.1);

function strip(piece: string, tightness: number): PictureStrip {
  return { piece, band: { low: 0.75, high: 1.25 }, fromMm: 40, toMm: 680, cells: HEIGHTS.map((heightMm) => ({ heightMm, tightness })) };
}

function limb(side: 'left' | 'right', strips: readonly PictureStrip[]): PictureLimb {
  const girthsMm = HEIGHTS.map((_, rung) => 215 + rung * 17);
  return { side, affected: true, day: DAY, heightsMm: HEIGHTS, girthsMm, asked: [], kept: [], earlier: [], strips };
}

function picture(limbs: readonly PictureLimb[]): LimbPicture {
  const landmarks = [{ name: 'ankle crease', heightMm: 0, inferred: false, isZero: true }];
  return { limb: 'leg', unit: 'in', ruler: { zero: 'ankle-crease', zeroMm: 0, direction: 'up', unit: 'cm' }, limbs, landmarks };
}

describe('the places of the limb outline', () => {
  it('leave a limb that wears eight cuts at once its room: strips give way, the farthest from the fitting last', () => {
    const cuts = [1.02, 1.05, 1.21, 1.08, 0.99, 1.01, 0.97, 1.1].map((tightness, index) => strip(String(index + 1), tightness));
    const layout = outlineLayout(picture([limb('right', cuts), limb('left', cuts)]), 590, 548);
    expect(layout.width).toBeLessThanOrEqual(548.01);
    expect(layout.frame.scale).toBeGreaterThan(0.4);
    for (const place of layout.limbs) expect(place.strips.map((one) => one.piece)).toContain('3');
    const drawn = layout.limbs.flatMap((place) => place.strips).length;
    expect(drawn + layout.notDrawn.length).toBe(16);
  });

  it('draw every strip where there is room, and none is missing from the words', () => {
    const layout = outlineLayout(picture([limb('right', [strip('1', 1.1), strip('2', 1)])]), 590, 548);
    expect(layout.limbs[0]?.strips).toHaveLength(2);
    expect(layout.notDrawn).toEqual([]);
  });

  it('never draw larger than 40 px an inch, in one scale for both axes', () => {
    const layout = outlineLayout(picture([limb('right', [])]), 5900, 5480);
    expect(layout.frame.scale).toBeCloseTo(40 / 25.4, 9);
  });
});
