import { describe, expect, it } from 'vitest';
import { sheetDoubts } from '@/lib/doubts/sheet-doubts';
import type { Ladder } from '@/lib/ladder/ladder';
import type { LandmarkId, LimbKind } from '@/lib/ladder/limb';
import { landmarksAhead, zeroAndDirection } from '@/lib/ladder/zero-and-direction';
import { asNanometres } from '@/lib/units/length';
import { leftOutPlace, sheetRows, typedLandmarks } from '@/lib/visit-form/entry-rows';
import { firstSheet } from '@/lib/visit-form/first-sheet';
import { readSheetSide } from '@/lib/visit-form/read-sheet-side';
import type { LimbSheet } from '@/lib/visit-form/visit-form';

const cm = (value: number) => ({ text: String(value), unit: 'cm' as const, nm: asNanometres(value * 10_000_000) });

function ladder(limb: LimbKind, zero: string, direction: 'up' | 'down', at: Partial<Record<LandmarkId, number>> = {}): Ladder {
  const landmarks = Object.entries(at).map(([landmark, place]) => ({ landmark: landmark as LandmarkId, distance: cm(place) }));
  const rungs = [4, 8, 12].map((place) => ({ distance: cm(place), girth: cm(17 + place / 4) }));
  return { limb, side: 'left', zero, direction, unit: 'cm', rungs, landmarks, floorToFold: null };
}

describe('a zero and a direction', () => {
  it.each([
    ['arm', 'wrist-crease', 'down', /^Downward from the wrist crease\? No arm is left/],
    ['arm', 'axillary-fold', 'up', /^Upward from the axillary fold\?/],
    ['leg', 'ankle-crease', 'down', /^Downward from the ankle crease\?/],
    ['leg', 'gluteal-fold', 'up', /^Upward from the gluteal fold\?/],
  ] as const)('%s from the %s, %s, cannot be and is asked about, on the sheet and at import alike', (limb, zero, direction, question) => {
    const one = ladder(limb, zero, direction);
    expect(zeroAndDirection(one)?.message).toMatch(question);
    const today = { day: 0, body: { heightMm: undefined, weightKg: undefined }, tape: { readingMm: 3, placementMm: 5 } };
    const asked = sheetDoubts([{ ladder: one, rowsMm: [40, 80, 120], affected: false, last: undefined }], today);
    expect(asked.map(({ doubt }) => doubt.kind)).toContain('zero-direction');
  });

  it.each([
    ['leg', 'ankle-crease', 'up', { knee: 38, 'gluteal-fold': 70 }],
    ['leg', 'gluteal-fold', 'down', { knee: 32, 'ankle-crease': 70 }],
    ['leg', 'knee', 'down', { 'ankle-crease': 38 }],
    ['arm', 'a scar above the elbow', 'up', { 'axillary-fold': 20 }],
    ['arm', 'wrist-crease', 'up', {}],
  ] as const)('%s from %s, %s, is asked nothing', (limb, zero, direction, at) => {
    expect(zeroAndDirection(ladder(limb, zero, direction, at))).toBeUndefined();
  });

  it('a landmark that lies behind, or before one it comes after, is asked about', () => {
    expect(zeroAndDirection(ladder('leg', 'knee', 'up', { 'ankle-crease': 38 }))?.message).toMatch(/It lies the other way\.$/);
    expect(zeroAndDirection(ladder('leg', 'ankle-crease', 'up', { knee: 70, 'gluteal-fold': 38 }))?.message).toMatch(
      /^The gluteal fold at 38\.0/,
    );
  });

  it('kept once, it is not asked again; an empty ladder is asked nothing', () => {
    const one = ladder('arm', 'wrist-crease', 'down');
    const kept = [{ kind: 'zero-direction', by: 'RA', at: '2026-10-14T13:31:00.000Z' }];
    expect(zeroAndDirection({ ...one, rungs: one.rungs.map((rung) => ({ ...rung, kept })) })).toBeUndefined();
    expect(zeroAndDirection({ ...one, rungs: [] })).toBeUndefined();
  });

  it('landmarks ahead are those met on the way, near to far', () => {
    expect(landmarksAhead('leg', 'ankle-crease', 'up')).toEqual(['knee', 'gluteal-fold']);
    expect(landmarksAhead('leg', 'knee', 'down')).toEqual(['ankle-crease']);
    expect(landmarksAhead('arm', 'a scar', 'down')).toEqual(['axillary-fold', 'elbow-crease', 'wrist-crease']);
  });
});

describe('the rows of a sheet', () => {
  const sheet = (fold: string, more: Partial<LimbSheet> = {}): LimbSheet => ({
    ...firstSheet('leg', 'in', ['right']),
    marks: { 'right/gluteal-fold': fold },
    ...more,
  });

  it('the rung at 21 that is left out beside a fold at 21¼ is told, and measured all the same when asked for', () => {
    expect(sheetRows(sheet('21 1/4')).map((row) => row.key)).not.toContain(String(21 * 25_400_000));
    expect(leftOutPlace(sheet('21 1/4'))?.text).toBe('21');
    const both = sheet('21 1/4', { extras: [{ place: '21', name: '' }] });
    expect(leftOutPlace(both)).toBeUndefined();
    expect(
      sheetRows(both)
        .map((row) => row.key)
        .slice(-2),
    ).toEqual([String(21 * 25_400_000), 'end']);
  });

  it('nothing is told where nothing is left out', () => {
    expect(leftOutPlace(sheet('23 3/8'))).toBeUndefined();
    expect(leftOutPlace(sheet('21'))).toBeUndefined();
    expect(leftOutPlace(sheet(''))).toBeUndefined();
    expect(leftOutPlace(sheet('21 1/4', { endRow: false }))).toBeUndefined();
  });

  it('a landmark out of its order stops the visit at its box, and nothing typed is lost', () => {
    const crossed = sheet('15', { marks: { 'right/knee': '28', 'right/gluteal-fold': '15' }, cells: { 'right/38100000': { text: '8' } } });
    expect(readSheetSide(crossed, 'right').refusals).toEqual([
      { where: 'right/gluteal-fold', reason: expect.stringMatching(/^The gluteal fold at 15\sin\? Going upward, it comes after the knee/) },
    ]);
  });

  it('a landmark that lies behind has no box, unless a figure stands in it', () => {
    expect(typedLandmarks(sheet('', { zero: 'knee' }))).toEqual(['gluteal-fold']);
    expect(typedLandmarks(sheet('', { zero: 'knee', marks: { 'right/ankle-crease': '15' } }))).toEqual(['gluteal-fold', 'ankle-crease']);
  });
});
