import { describe, expect, it } from 'vitest';
import { furtherLimbs, onLimb } from '@/lib/garments/limbs-of-set';
import { isNoAnswer } from '@/lib/outcome';
import type { PatientRecord, Piece } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { recordOf, visitOf } from '../made-up-ladder';
import { analysed, legOf, pieceOf, promptsOf } from '../prompts/made-up-piece';

const TODAY = '2026-06-20';
const tights = { form: 'waist-high', use: 'day', pressure: null, options: [] } as const;
const both = (day: string, left: number, right: number | null) =>
  visitOf(day, [legOf(left), ...(right === null ? [] : [legOf(right, { side: 'right' })])], { height: '164', weight: '60' });
const piece = (rest: Partial<Piece> = {}): Piece =>
  pieceOf('2026-03-01', {
    garment: tights,
    firstWorn: calendarDay('2026-03-15'),
    covers: { from: 'ankle-crease', to: 'gluteal-fold' },
    ...rest,
  });
const record = (left: number, right: number | null, one = piece()): PatientRecord =>
  recordOf([both('2026-03-01', 1, right === null ? null : 1), both('2026-06-15', left, right)], {
    born: calendarDay('1980-01-01'),
    sex: 'F',
    affected: [
      { limb: 'leg', side: 'left' },
      { limb: 'leg', side: 'right' },
    ],
    pieces: [one],
  });
const tightestOf = (fit: unknown) =>
  isNoAnswer(fit as never) ? null : Math.max(...(fit as { places: { tightness: number }[] }).places.map((place) => place.tightness));

describe('a garment on several limbs', () => {
  it('is judged on each: a further limb sits as a piece would that was cut for it alone', () => {
    const [one] = analysed(record(1, 1.07), TODAY).pieces;
    const alone = record(1, 1.07, piece({ garment: null, side: 'right' }));
    const [right] = analysed(alone, TODAY).pieces;
    expect(one?.ofSet.map(({ side }) => side)).toEqual(['left', 'right']);
    expect(one?.ofSet[1]?.fit).toMatchObject({ places: right && !isNoAnswer(right.fit) ? right.fit.places : [] });
    expect(one?.ofSet[1]?.outgrow).toEqual(right?.outgrow);
    expect(tightestOf(one?.fit)).toBeLessThan(1.01);
    expect(tightestOf(one?.ofSet[1]?.fit)).toBeGreaterThan(1.1);
  });

  it('its dates and prompts are those of the limb that ends the fit first, whichever it is', () => {
    const worse = analysed(record(1, 1.2), TODAY).pieces[0];
    expect(worse?.outgrowOn).toEqual({ limb: 'leg', side: 'right' });
    expect(worse?.outgrow).toEqual(worse?.ofSet[1]?.outgrow);
    const [prompt] = promptsOf('tightness-left-band', record(1, 1.2), TODAY);
    expect(prompt?.title).toContain('tighter than the working band on the right leg');
    expect(prompt?.cause).toBe('left leg: size');
    const mirrored = analysed(record(1.2, 1), TODAY).pieces[0];
    expect(mirrored?.outgrowOn).toEqual({ limb: 'leg', side: 'left' });
    expect(promptsOf('tightness-left-band', record(1.2, 1), TODAY)[0]?.title).toMatch(/than the working band\.$/);
    expect(promptsOf('tightness-left-band', record(1, 1), TODAY)).toEqual([]);
  });

  it('a limb that was not taped is said not to be known and decides nothing', () => {
    const [one] = analysed(record(1.12, null), TODAY).pieces;
    expect(one?.ofSet[1]?.fit).toEqual({ noAnswer: 'No ladder of 2026-03-01 is on record for this limb.' });
    expect(one?.outgrowOn.side).toBe('left');
  });

  it('a garment of one limb, or of no known form, has no further limb', () => {
    for (const garment of [null, { ...tights, form: 'thigh-high' }])
      expect(analysed(record(1, 1.12, piece({ garment })), TODAY).pieces[0]?.ofSet).toEqual([]);
    expect(furtherLimbs(piece({ garment: { ...tights, form: 'body-garment-sleeves' } })).map(({ limb }) => limb)).toEqual([
      'leg',
      'arm',
      'arm',
    ]);
    expect(onLimb(piece(), { limb: 'arm', side: 'left' }).covers).toEqual({ from: 'wrist-crease', to: 'axillary-fold' });
  });
});
