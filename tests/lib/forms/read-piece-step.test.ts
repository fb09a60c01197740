import { describe, expect, it } from 'vitest';
import { readPieceStep, zonesOf } from '@/lib/forms/read-piece-step';
import { wearInStart } from '@/lib/garments/wear-in-start';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import type { Piece } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { cm } from '@/tests/lib/made-up-ladder';
import { pieceOf } from '@/tests/lib/prompts/made-up-piece';

const day = calendarDay;
const today = day('2026-11-25');
const piece = (parts: Partial<Piece> = {}): Piece => pieceOf('2026-08-01', { orderId: 'o', ...parts });
const good = { 'zone/bottom edge': 'good', 'zone/middle': 'good', 'zone/top edge': 'good' };
const wearIn = { firstHours: '2', fullHours: '23', wearInDays: '14', callAfter: '7' };

describe('a step in the life of a piece', () => {
  it('refuses a day that has not come, and one before the step it follows', () => {
    expect(readPieceStep('delivered', { day: '2026-11-26' }, piece(), today)).toEqual({
      kind: 'refused',
      errors: { day: 'This day has not come yet.' },
    });
    const worn = readPieceStep('worn', { ...wearIn, day: '2026-11-19' }, piece({ delivered: day('2026-11-20') }), today);
    expect(worn).toEqual({ kind: 'refused', errors: { day: 'This is before its delivery, 20 Nov 2026.' } });
  });

  it('is not delivered twice: what was recorded at the first fit would be lost', () => {
    const fitted = piece({ delivered: day('2026-11-20'), firstFit: day('2026-11-21') });
    expect(readPieceStep('delivered', { day: '2026-11-22' }, fitted, today)).toEqual({
      kind: 'refused',
      errors: { day: 'It is on record as delivered already.' },
    });
  });

  it('first fit: “all good” is good everywhere and keeps the piece; an exception stands, and then what follows is asked', () => {
    const here = piece({ delivered: day('2026-11-20') });
    const all = readPieceStep('first-fit', { allGood: 'yes', day: '2026-11-24' }, here, today);
    expect(all).toMatchObject({ kind: 'read', piece: { firstFit: '2026-11-24', fit: { outcome: 'keep', reason: null, taught: false } } });
    expect(all.kind === 'read' && all.piece.fit?.zones.map(({ fit }) => fit)).toEqual(['good', 'good', 'good']);
    const odd = { allGood: 'yes', 'zone/middle': 'too tight', day: '2026-11-24' };
    expect(readPieceStep('first-fit', odd, here, today)).toMatchObject({
      kind: 'refused',
      errors: { outcome: 'Choose what follows: keep, alter or remake.' },
    });
    const back = readPieceStep('first-fit', { ...odd, outcome: 'alter', reason: 'girth wrong' }, here, today);
    expect(back.kind === 'read' && back.piece.fit?.zones.map(({ fit }) => fit)).toEqual(['good', 'too tight', 'good']);
  });

  it('a wear-in starts with the hours of the clinic, and of a night for a piece of the night', () => {
    const garment = (use: 'day' | 'night' | 'other') => piece({ garment: { form: 'leg-sleeve', use, pressure: null, options: [] } });
    expect(wearInStart(garment('other'), DEFAULT_POLICY, [], true)).toEqual(wearIn);
    expect(wearInStart(garment('other'), DEFAULT_POLICY, [], false)).toEqual({ ...wearIn, fullHours: '' });
    expect(wearInStart(piece({ garment: null }), DEFAULT_POLICY, [], true)).toEqual(wearIn);
    expect(wearInStart(garment('night'), DEFAULT_POLICY, [], true)).toEqual({ ...wearIn, fullHours: '8' });
    expect(wearInStart(garment('night'), { ...DEFAULT_POLICY, wearInNightHours: 1 }, [], true).firstHours).toBe('1');
  });

  it('the full hours of a piece of the day are those of the last one of its limb, else left open and asked, never the clinic’s 23', () => {
    const worn = (firstWorn: string, fullHours: number, more: Partial<Piece> = {}) => {
      const plan = { firstHours: 2, fullHours, days: 14, callOn: day(firstWorn), called: null, callNote: null };
      return { ...next, piece: firstWorn, firstWorn: day(firstWorn), wearIn: plan, ...more };
    };
    const next = piece({ piece: 'next', garment: { form: 'leg-sleeve', use: 'day', pressure: null, options: [] } });
    expect(wearInStart(next, DEFAULT_POLICY, [next], true)).toEqual({ ...wearIn, fullHours: '' });
    const before = [
      worn('2026-01-05', 10),
      worn('2026-06-05', 12),
      worn('2026-07-01', 14, { side: next.side === 'left' ? 'right' : 'left' }),
    ];
    expect(wearInStart(next, DEFAULT_POLICY, before, true).fullHours).toBe('12');
    const asked = (...all: Piece[]) => wearInStart(next, DEFAULT_POLICY, all, true).fullHours;
    // One that covers another stretch, one for the night and one that nobody wore yet say nothing.
    expect(asked(worn('2026-07-01', 14, { covers: { from: 'knee', to: 'gluteal-fold' } }))).toBe('');
    expect(asked(worn('2026-07-01', 14, { covers: 'measures' }))).toBe('');
    expect(asked(worn('2026-07-01', 14, { garment: { form: 'leg-sleeve', use: 'night', pressure: null, options: [] } }))).toBe('');
    expect(asked(worn('2026-07-01', 14, { firstWorn: null }))).toBe('');
    // Two pieces of which nobody noted when they are worn are not of one use.
    const unknown = piece({ piece: 'unknown', garment: null });
    expect(wearInStart(unknown, DEFAULT_POLICY, [worn('2026-07-01', 14, { garment: null })], false).fullHours).toBe('');
    // The piece worn last is one still in use, not one begun later and given up; without a plan of its own it says nothing.
    expect(asked(worn('2026-01-05', 10), worn('2026-06-05', 12, { retired: day('2026-07-05') }))).toBe('10');
    expect(asked(worn('2026-01-05', 10), worn('2026-06-05', 12, { wearIn: null }))).toBe('');
    const typed = { ...good, ...wearIn, fullHours: '', day: '2026-11-24', outcome: 'keep', wornToday: 'yes' };
    expect(readPieceStep('first-fit', typed, piece({ delivered: day('2026-11-20') }), today)).toMatchObject({
      kind: 'refused',
      errors: { fullHours: 'Type whole hours, 1 to 24.' },
    });
  });

  it('first fit: every zone has a verdict, and what is kept starts its wear-in', () => {
    const missing = readPieceStep('first-fit', { day: '2026-11-24', outcome: 'keep' }, piece({ delivered: day('2026-11-20') }), today);
    expect(missing).toMatchObject({ kind: 'refused', errors: { 'zone/middle': 'Say how it sits at the middle.' } });
    const typed = { ...good, ...wearIn, day: '2026-11-24', outcome: 'keep', wornToday: 'yes', taught: 'yes' };
    const kept = readPieceStep('first-fit', typed, piece({ delivered: day('2026-11-20') }), today);
    expect(kept).toMatchObject({
      kind: 'read',
      piece: {
        firstFit: '2026-11-24',
        firstWorn: '2026-11-24',
        wearIn: { firstHours: 2, fullHours: 23, days: 14, callOn: '2026-12-01' },
        fit: { outcome: 'keep', taught: true },
      },
    });
  });

  it('first fit: an alteration or a remake needs its coded reason, and the piece is awaited again', () => {
    const typed = { ...good, 'zone/middle': 'too tight', day: '2026-11-24', outcome: 'remake' };
    const delivered = piece({ delivered: day('2026-11-20') });
    expect(readPieceStep('first-fit', typed, delivered, today)).toMatchObject({
      kind: 'refused',
      errors: { reason: expect.stringContaining('reason') },
    });
    const back = readPieceStep('first-fit', { ...typed, reason: 'girth wrong' }, delivered, today);
    expect(back).toMatchObject({
      kind: 'read',
      piece: { delivered: null, firstFit: null, fit: { outcome: 'remake', reason: 'girth wrong' } },
    });
  });

  it('first fit: keeping what does not sit well asks for words', () => {
    const typed = { ...good, 'zone/top edge': 'cuts in', day: '2026-11-24', outcome: 'keep' };
    expect(readPieceStep('first-fit', typed, piece(), today)).toMatchObject({ kind: 'refused', errors: { words: expect.any(String) } });
  });

  it('lets out no more than was sewn in, over all let-outs, in either unit', () => {
    const roomy = piece({ firstWorn: day('2026-09-01'), allowance: cm(2) });
    const once = readPieceStep('let-out', { day: '2026-10-01', width: '1,5' }, roomy, today);
    if (once.kind !== 'read') throw new Error('refused');
    expect(once.piece.alterations?.[0]).toMatchObject({ kind: 'let out', width: { text: '1,5', unit: 'cm' } });
    expect(readPieceStep('let-out', { day: '2026-11-01', width: '1/4 in' }, once.piece, today)).toEqual({
      kind: 'refused',
      errors: { width: 'Only 0.5\u202fcm (0.20\u202fin) of room is left in this piece.' },
    });
    expect(readPieceStep('let-out', { day: '2026-11-01', width: '0.5' }, once.piece, today).kind).toBe('read');
    expect(readPieceStep('let-out', { day: '2026-11-01', width: '1' }, piece({ firstWorn: day('2026-09-01') }), today).kind).toBe(
      'refused',
    );
  });

  it('goes out of use with a coded reason', () => {
    const worn = piece({ firstWorn: day('2026-09-01') });
    expect(readPieceStep('retire', { day: '2026-11-25', as: '' }, worn, today)).toMatchObject({
      kind: 'refused',
      errors: { as: expect.any(String) },
    });
    expect(readPieceStep('retire', { day: '2026-11-25', as: 'outgrown', words: 'tight at the knee' }, worn, today)).toMatchObject({
      kind: 'read',
      piece: { retired: '2026-11-25', retiredAs: 'outgrown', retiredReason: 'outgrown: tight at the knee' },
    });
  });

  it('judges the zones of the garment’s own form', () => {
    expect(zonesOf({ garment: { form: 'knee-high', use: 'day', pressure: null, options: [] } })).toEqual([
      'toes',
      'foot',
      'heel and ankle',
      'calf',
      'top edge',
    ]);
    expect(zonesOf({ garment: null })).toEqual(['bottom edge', 'middle', 'top edge']);
  });
});
