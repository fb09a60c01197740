import { describe, expect, it } from 'vitest';
import type { GarmentSpec } from '@/lib/garment-forms/garment-catalogue';
import { changeSinceCut, lastOfPlace } from '@/lib/orders/last-of-place';
import { orderDifference } from '@/lib/orders/order-difference';
import type { Piece } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { cm, recordOf, visitOf } from '../made-up-ladder';
import { analysed, legOf, pieceOf } from '../prompts/made-up-piece';

const D = calendarDay;
const garment: GarmentSpec = { form: 'calf-sleeve', use: 'day', pressure: null, options: [] };
const order = { limb: 'leg', side: 'left', covers: { from: 'ankle-crease', to: 'knee' }, cutFrom: D('2026-05-01'), garment } as const;
const piece = (number: string, cutFrom: string, rest: Partial<Piece> = {}) => pieceOf(cutFrom, { piece: number, ...rest });

describe('the last piece of an order’s place', () => {
  it('is the one of the same limb cut last on or before its day, of the same cover before another', () => {
    const last = (...pieces: Piece[]) => lastOfPlace(pieces, order, null)?.piece;
    expect(last(piece('1', '2026-01-05'), piece('2', '2026-03-05'))).toBe('2');
    expect(last(piece('2', '2026-03-05'), piece('1', '2026-01-05'))).toBe('2');
    expect(last(piece('9', '2026-03-05'), piece('10', '2026-03-05'))).toBe('10');
    expect(last(piece('1', '2026-05-01'), piece('2', '2026-05-02'))).toBe('1');
    const thigh = { covers: { from: 'ankle-crease', to: 'gluteal-fold' } } as const;
    expect(last(piece('1', '2026-01-05'), piece('2', '2026-03-05', thigh))).toBe('1');
    expect(last(piece('2', '2026-03-05', thigh))).toBe('2');
    for (const other of [{ limb: 'arm' }, { side: 'right' }, { covers: 'measures' }] as const)
      expect(last(piece('1', '2026-01-05', other))).toBeUndefined();
  });

  it('is none of the order’s own', () => {
    const own = [piece('1', '2026-01-05', { orderId: 'o1' }), piece('2', '2026-03-05', { orderId: 'o2' })];
    expect(lastOfPlace(own, order, 'o2')?.piece).toBe('1');
    expect(lastOfPlace(own, order, 'o3')?.piece).toBe('2');
  });

  it('how the limb changed since is read between the two days, and is nothing on one day or of a limb nobody taped', () => {
    const analysis = analysed(recordOf([visitOf('2026-01-05', [legOf()]), visitOf('2026-03-05', [legOf(1.04)])]), '2026-03-10');
    const since = (from: string, to: string, side: 'left' | 'right' = 'left') =>
      changeSinceCut(analysis, piece('1', from), { ...order, side, cutFrom: D(to) });
    expect(since('2026-01-05', '2026-03-05')?.measured.girth.ratio).toBeCloseTo(1.04, 3);
    expect(since('2026-03-05', '2026-03-05')).toBeNull();
    expect(since('2026-02-05', '2026-03-05')).toBeNull();
    expect(since('2026-01-05', '2026-03-05', 'right')).toBeNull();
  });
});

describe('in what an order differs from the last piece', () => {
  const before = piece('1', '2026-01-05', { garment });
  it('is nothing where nothing differs', () => expect(orderDifference(before, before)).toEqual([]));

  it('is each thing in words, before and now', () => {
    const now: Piece = {
      ...before,
      cutFrom: D('2026-03-05'),
      reductionPct: 20,
      convention: 'C/(1+r)',
      covers: { from: 'ankle-crease', to: 'gluteal-fold' },
      allowance: cm(2),
      lifeDays: 120,
      leadDays: 10,
      garment: {
        form: 'calf-sleeve',
        use: 'other',
        pressure: { scheme: 'made up', name: '2', lowMmHg: 23, highMmHg: 32 },
        options: [
          { kind: 'closure', choice: 'zip', place: 'outer calf', width: null },
          { kind: 'expansion panel', choice: 'panel', place: 'back', width: cm(2) },
        ],
      } as GarmentSpec,
    };
    expect(Object.fromEntries(orderDifference(before, now).map((one) => [one.what, [one.before, one.now]]))).toEqual({
      Ladder: ['5 Jan 2026', '5 Mar 2026'],
      Worn: ['by day', 'other use'],
      Covers: ['ankle crease to knee', 'ankle crease to gluteal fold'],
      Reduction: ['15\u202f%, relaxed girth = girth × (1 − reduction)', '20\u202f%, relaxed girth = girth ÷ (1 + reduction)'],
      Class: ['no class given', '2 (made up), 23–32\u202fmmHg'],
      Options: ['none', 'zip, outer calf; panel 2 cm, back'],
      'Room to let out': ['none', '2 cm'],
      'Expected life': ['90 days', '120 days'],
      'Making and delivery': [`${before.leadDays} days`, '10 days'],
    });
    expect(orderDifference(piece('1', '2026-01-05'), before).map((one) => one.before)).toEqual(Array(4).fill('not recorded'));
  });
});
