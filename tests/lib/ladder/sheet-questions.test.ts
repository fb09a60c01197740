import { describe, expect, it } from 'vitest';
import { sheetDoubts } from '@/lib/doubts/sheet-doubts';
import { isAcknowledged } from '@/lib/ladder/acknowledged';
import { questionAndReason } from '@/lib/ladder/doubt';
import type { Ladder } from '@/lib/ladder/ladder';
import { sizeCheck } from '@/lib/ladder/size-check';
import { possibleSlips, slipText } from '@/lib/ladder/slip';
import type { LengthUnit, TypedLength } from '@/lib/units/length';
import { readLength } from '@/lib/units/read-length';

function length(text: string, unit: LengthUnit): TypedLength {
  const reading = readLength(text, unit);
  if (reading.kind !== 'read') throw new Error(reading.reason);
  return reading.value;
}

function ladder(girths: readonly string[], unit: LengthUnit = 'in', landmarks: Ladder['landmarks'] = []): Ladder {
  const step = unit === 'in' ? 1.5 : 4;
  const rungs = girths.map((girth, index) => ({ distance: length(String((index + 1) * step), unit), girth: length(girth, unit) }));
  return { limb: 'leg', side: 'right', zero: 'ankle-crease', direction: 'up', unit, rungs, landmarks, floorToFold: null };
}

const TODAY = { day: 0, body: { heightMm: undefined, weightKg: undefined }, tape: { readingMm: 3, placementMm: 5 } };
const asked = (one: Ladder, affected = false) =>
  sheetDoubts([{ ladder: one, rowsMm: one.rungs.map((rung) => rung.distance.nm / 1e6), affected, last: undefined }], TODAY).map(
    ({ doubt }) => doubt,
  );

const LEG = ['8 1/8', '8 3/8', '8 7/8', '9 5/8', '10 1/2', '11 3/8', '12 1/8'];

describe('questions of one ladder as it is typed', () => {
  it('a clean start raises none', () => {
    expect(asked(ladder(LEG))).toEqual([]);
  });

  it('the newest rung is asked about at once, with the swap that would fit', () => {
    const [doubt] = asked(ladder([...LEG.slice(0, 6), '21 1/8']));
    expect(doubt).toMatchObject({ kind: 'swapped-digits', distanceMm: 266.7 });
    expect(doubt && questionAndReason(doubt)).toEqual({
      question: '10½\u202fin: 21⅛ or 12⅛?',
      reason: 'The rung before is 11⅜. With the two digits swapped it would fit.',
    });
  });

  it('a figure ten times too large, or read off the other side of the tape, is named as such', () => {
    expect(asked(ladder(['20.1', '21.5', '229', '24.0'], 'cm'))[0]).toMatchObject({ kind: 'times-ten', wouldFitMm: 229 });
    expect(asked(ladder(['20.1', '21.5', '9', '24.0'], 'cm'))[0]).toMatchObject({ kind: 'inch-centimetre' });
  });

  it('a whole first ladder in the other unit raises one question, not one a rung', () => {
    const doubts = asked(ladder(['8.1', '8.4', '8.9', '9.6', '10.5', '11.4'], 'cm'));
    expect(doubts).toMatchObject([{ kind: 'inch-centimetre', distanceMm: null }]);
  });

  it('a kept question is not raised again', () => {
    const one = ladder([...LEG.slice(0, 6), '21 1/8']);
    const rungs = one.rungs.map((rung, index) =>
      index === 6 ? { ...rung, kept: [{ kind: 'swapped-digits', by: 'R. Adeyemi', at: '2026-10-14T13:31:00.000Z' }] } : rung,
    );
    expect(asked({ ...one, rungs })).toEqual([]);
    expect(isAcknowledged({ ...one, rungs }, { kind: 'swapped-digits', distanceMm: 266.7, message: '' })).toBe(true);
    expect(isAcknowledged({ ...one, rungs }, { kind: 'swapped-digits', distanceMm: 228.6, message: '' })).toBe(false);
  });

  it('a rung two fifths off its neighbours is asked about, on an affected limb too', () => {
    // 15 in where 10½ stands between 9⅝ and 11⅜: no usual slip explains it, and no fold of a swollen limb does.
    const odd = ladder([...LEG.slice(0, 4), '15', ...LEG.slice(5), '12 3/4', '13 1/8', '13']);
    const even = ladder([...LEG, '12 3/4', '13 1/8', '13']);
    for (const affected of [false, true]) {
      expect(asked(even, affected)).toEqual([]);
      expect(asked(odd, affected)).toMatchObject([{ kind: 'neighbours', distanceMm: 190.5 }]);
    }
  });

  it('a girth at the ankle crease of a ladder taped upward is asked about: it is a joint (common practice)', () => {
    const one = ladder(LEG);
    const atZero = { distance: { text: '0', unit: 'in' as const, nm: 0 as TypedLength['nm'] }, girth: length('8', 'in') };
    expect(asked({ ...one, rungs: [atZero, ...one.rungs] }).map((doubt) => doubt.kind)).toContain('girth-at-joint');
  });
});

describe('a girth put in place of a slip', () => {
  it('is exact where the tape can show it, else to its step', () => {
    expect([slipText(230, 'in'), slipText(231, 'cm'), slipText(231.25, 'cm'), slipText(231.234, 'cm')]).toEqual([
      '9',
      '23.1',
      '23.1',
      '23.1',
    ]);
    expect([slipText(25.4 * 9.125, 'in'), slipText(25.4 * 9.0625, 'in'), slipText(25.4 * 9.2, 'in')]).toEqual(['9 1/8', '9 1/16', '9 1/4']);
  });
});

describe('slips of the hand', () => {
  it('21 1/8 may have been 12 1/8; 34.6 may have been 43.6 or 36.4', () => {
    const of = (text: string, unit: LengthUnit) =>
      possibleSlips(length(text, unit))
        .filter((slip) => slip.kind === 'swapped-digits')
        .map((slip) => slipText(slip.girthMm, unit));
    expect(of('21 1/8', 'in')).toEqual(['12 1/8']);
    expect(of('34.6', 'cm')).toEqual(['43.6', '36.4']);
  });

  it('never offers nothing, or the figure itself', () => {
    for (const text of ['5', '0.5', '99', '11.1'])
      for (const slip of possibleSlips(length(text, 'cm')))
        expect(slip.girthMm > 0 && slip.girthMm !== length(text, 'cm').nm / 1e6).toBe(true);
  });
});

describe('length of the ladder against height', () => {
  const reaching = (knee: string, fold: string) =>
    ladder(['20.1'], 'cm', [
      { landmark: 'knee', distance: length(knee, 'cm') },
      { landmark: 'gluteal-fold', distance: length(fold, 'cm') },
    ]);

  it('a leg of usual shares raises none: knee 0.2365 H, fold 0.43 H (ANSUR II 2012, Snyder 1977)', () => {
    expect(sizeCheck(reaching('39.0', '71.0'), 1650)).toBeUndefined();
  });

  it('one longer than 0.49 of the height, or with its knee at a third of it, is asked about', () => {
    expect(sizeCheck(reaching('39.0', '85'), 1650)).toMatchObject({ kind: 'body-size', distanceMm: null });
    expect(sizeCheck(reaching('55', '71'), 1650)?.message).toMatch(/^Knee at 55\.0/);
  });

  it('without a height nothing is asked', () => {
    expect(sizeCheck(reaching('39.0', '185'), undefined)).toBeUndefined();
  });
});

describe('a place measured twice', () => {
  it('is asked about with the difference and the limit that it passes, never with one figure for both', () => {
    const one = ladder(['8 1/8', '8 3/8']);
    const rungs = one.rungs.map((rung, index) => (index === 1 ? { ...rung, again: length('8 3/4', 'in') } : rung));
    const [doubt] = asked({ ...one, rungs });
    expect(doubt?.message).toBe(
      '3\u202fin: 8⅜ or 8¾? The two measurings differ by ⅜\u202fin; those of one place seldom differ by more than 5⁄16\u202fin.',
    );
  });
});
