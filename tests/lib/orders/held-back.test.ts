import { describe, expect, it } from 'vitest';
import { readOrderForm } from '@/lib/forms/read-order-form';
import { readPieceStep } from '@/lib/forms/read-piece-step';
import { fittedBefore } from '@/lib/garments/of-one-order';
import { isAtHand, isAwaited, isHeldBack, pieceStage } from '@/lib/garments/piece-stage';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { againstRelease } from '@/lib/orders/against-release';
import { orderStage, piecesOfOrder, proposedOrder } from '@/lib/orders/order-steps';
import { followerOf } from '@/lib/prompts/rules/order-in-time';
import type { Order } from '@/lib/record/order';
import type { Piece } from '@/lib/record/patient-record';
import type { FirstFit } from '@/lib/record/piece-life';
import { calendarDay } from '@/lib/units/calendar-day';
import { recordOf, visitOf } from '../made-up-ladder';
import { analysed, legOf, pieceOf, promptsOf } from '../prompts/made-up-piece';

// The first of several like pieces is fitted before the others are made: common practice. The days here are made up.
const CUT = '2026-09-01';
const order: Order = {
  ...proposedOrder(
    {
      ...pieceOf(CUT),
      garment: { form: 'below-knee', use: 'day', pressure: null, options: [] },
      quantity: 2,
      heldBack: 1,
      reasonCode: 'first piece',
      note: null,
      decided: null,
    },
    'v1',
    { noAnswer: 'x' },
  ),
  order: 1,
  state: 'ordered',
  ordered: calendarDay('2026-09-03'),
  expected: calendarDay('2026-09-17'),
};
const fitOf = (outcome: FirstFit['outcome']): FirstFit => ({
  day: calendarDay('2026-09-18'),
  zones: [],
  outcome,
  reason: outcome === 'keep' ? null : 'girth wrong',
  words: null,
  taught: true,
});
const made = piecesOfOrder(order, ['1']).map((piece): Piece => ({ ...piece, orderId: 'o1' }));
const [first, second] = made as [Piece, Piece];
const fitted = (outcome: FirstFit['outcome']): Piece => ({
  ...first,
  fit: fitOf(outcome),
  ...(outcome === 'keep'
    ? { delivered: calendarDay('2026-09-16'), firstFit: calendarDay('2026-09-18'), firstWorn: calendarDay('2026-09-18') }
    : {}),
});
const once = [visitOf(CUT, [legOf()], { height: '164', weight: '68' })];
const record = (pieces: readonly Piece[], visits = once) => recordOf(visits, { pieces });
const on = calendarDay('2026-09-20');

describe('a piece that is held back', () => {
  it('is on record from the day the order is sent, is not on its way, and ends no order', () => {
    expect(made.map(({ piece, expected }) => [piece, expected])).toEqual([
      ['2', '2026-09-17'],
      ['3', null],
    ]);
    expect(made.map((one) => pieceStage(one, on))).toEqual(['on order', 'held back']);
    expect([isAwaited(second), isAtHand(second), isHeldBack(second)]).toEqual([false, false, true]);
    expect(orderStage(order, [fitted('keep'), second])).toBe('partly delivered');
  });

  it('follows no other piece: that one’s replacement is still asked for', () => {
    const { pieces } = analysed(record([fitted('keep'), second]), '2026-09-20');
    const released: Piece = { ...second, kept: [...(second.kept ?? []), { from: on, as: 'rotation' }] };
    const after = analysed(record([fitted('keep'), released]), '2026-09-20').pieces;
    expect(followerOf(pieces[0] as (typeof pieces)[0], pieces, on)).toBeUndefined();
    expect(followerOf(after[0] as (typeof after)[0], after, on)).toMatchObject({ piece: released.piece, longer: true });
  });

  it('of two new ones that last alike the later follows, from whichever the next order is counted', () => {
    const worn: Piece = { ...first, piece: '1', firstWorn: calendarDay('2026-09-01'), cutFrom: calendarDay('2026-06-01'), orderId: null };
    const two = ['2', '3'].map((piece) => ({ ...first, piece }));
    const { pieces } = analysed(record([worn, ...two], [...once, visitOf('2026-06-01', [legOf()])].reverse()), '2026-09-20');
    const followers = pieces.map((one) => followerOf(one, pieces, on)?.piece);
    expect(followers).toEqual(['3', '3', undefined]);
  });

  it('is asked about once the first was kept, or is made again; never before and never after the release', () => {
    expect(promptsOf('release-after-fit', record([first, second]), '2026-09-20')).toEqual([]);
    const kept = promptsOf('release-after-fit', record([fitted('keep'), second]), '2026-09-20');
    expect(kept.map(({ title, due, action }) => [title, due, action])).toEqual([
      ['Consider releasing the left-leg piece 3: piece 2 of its order was kept at its first fit.', '2026-09-18', 'release'],
    ]);
    const remade = promptsOf('release-after-fit', record([fitted('remake'), second]), '2026-09-20');
    expect(remade[0]?.title).toContain('piece 2 of its order is made again');
    expect(fittedBefore(second, [fitted('alter'), second]), 'an alteration says nothing until it is fitted again').toBeUndefined();
    expect(fittedBefore(second, [{ ...fitted('keep'), orderId: 'another' }, second])).toBeUndefined();
  });

  it('is released with a day; against what stands, only with words', () => {
    const well = againstRelease(second, record([fitted('keep'), second]), DEFAULT_POLICY, on);
    expect(well).toEqual([]);
    const read = readPieceStep('release', { day: '2026-09-20', expected: '' }, second, on, well);
    expect(read).toMatchObject({ kind: 'read', piece: { expected: '2026-10-04' }, reason: 'released' });
    if (read.kind === 'read') expect([pieceStage(read.piece, on), isAwaited(read.piece)]).toEqual(['on order', true]);
    const early = againstRelease(second, record([first, second]), DEFAULT_POLICY, on);
    expect(early).toEqual(['No piece of its order was kept at a first fit yet.']);
    const bare = readPieceStep('release', { day: '2026-09-20' }, second, on, early);
    expect(bare.kind === 'refused' && Object.keys(bare.errors)).toEqual(['words']);
    expect(readPieceStep('release', { day: '2026-09-20', words: 'both go on holiday' }, second, on, early).kind).toBe('read');
    const twice = readPieceStep('release', { day: '2026-09-20' }, first, on);
    expect(twice.kind === 'refused' && twice.errors.day).toMatch(/not held back/);
    const before = readPieceStep('release', { day: '2026-09-02', expected: '2026-09-01' }, second, on);
    expect(before.kind === 'refused' && Object.keys(before.errors)).toEqual(['day']);
  });

  it('is asked about where the limb was taped again, or the figures are old', () => {
    const again = [visitOf(CUT, [legOf()]), visitOf('2026-09-18', [legOf(1.05)])];
    const said = againstRelease(second, record([fitted('keep'), second], again), DEFAULT_POLICY, on);
    expect(said.join(' ')).toContain('measured again on 18 Sep 2026');
    const late = againstRelease(second, record([fitted('keep'), second]), DEFAULT_POLICY, calendarDay('2026-12-01'));
    expect(late.join(' ')).toContain('days old');
  });

  it('is never all of an order', () => {
    const ladder = { key: 'k', limb: 'leg', side: 'left', day: calendarDay(CUT), unit: 'cm', ends: [] } as unknown as Parameters<
      typeof readOrderForm
    >[1][number];
    const of = (quantity: string, heldBack: string) => {
      const read = readOrderForm({ cutFrom: 'k', quantity, heldBack }, [ladder]);
      return read.kind === 'refused' ? read.errors.heldBack : undefined;
    };
    expect(of('2', '1')).toBeUndefined();
    expect(of('2', '')).toBeUndefined();
    expect(of('2', '2')).toMatch(/At least one piece/);
    expect(of('2', 'one')).toBeDefined();
  });
});
