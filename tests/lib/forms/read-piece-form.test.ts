import { describe, expect, it } from 'vitest';
import type { CutLadder } from '@/lib/forms/read-cut';
import { pieceFormOf, readPieceForm, type TypedPieceForm } from '@/lib/forms/read-piece-form';
import { readPolicyForm } from '@/lib/forms/read-policy-form';
import { calendarDay } from '@/lib/units/calendar-day';

const LADDER: CutLadder = { key: 'v1 left leg', visitId: 'v1', day: calendarDay('2026-03-01'), limb: 'leg', side: 'left', unit: 'in' };
const TYPED: TypedPieceForm = {
  piece: '3',
  cutFrom: LADDER.key,
  from: 'ankle-crease',
  to: '12 1/2',
  reduction: '15 %',
  convention: 'C(1-r)',
  allowance: '3/4 in',
  firstWorn: '2026-03-15',
  firstFit: '',
  lifeDays: '150',
  leadDays: '14',
  retired: '',
  retiredReason: '',
};

const errorsOf = (change: Partial<TypedPieceForm>, taken: string[] = []) => {
  const read = readPieceForm({ ...TYPED, ...change }, [LADDER], taken);
  return read.kind === 'refused' ? Object.keys(read.errors) : [];
};

describe('the piece form', () => {
  it('reads a piece with its ends, reduction, room and days; 12 1/2 in is 317.5 mm exactly', () => {
    const read = readPieceForm(TYPED, [LADDER], ['1', '2']);
    expect(read).toMatchObject({
      kind: 'read',
      piece: {
        piece: '3',
        limb: 'leg',
        side: 'left',
        cutFrom: '2026-03-01',
        reductionPct: 15,
        lifeDays: 150,
        leadDays: 14,
        retired: null,
        allowance: { text: '3/4 in', nm: 19_050_000 },
      },
    });
    expect(read.kind === 'read' && read.piece.covers).toMatchObject({ from: 'ankle-crease', to: { nm: 317_500_000 } });
  });

  it('shows a piece again so that it reads back the same', () => {
    const read = readPieceForm(TYPED, [LADDER], []);
    if (read.kind !== 'read') throw new Error('refused');
    expect(pieceFormOf(read.piece, LADDER.key).from).toBe('ankle crease');
    expect(readPieceForm(pieceFormOf(read.piece, LADDER.key), [LADDER], [])).toMatchObject({
      kind: 'read',
      piece: { covers: { to: { nm: 317_500_000 } }, allowance: { nm: 19_050_000 } },
    });
  });

  it.each([
    ['a name that is taken', { piece: '2' }, ['piece']],
    ['no ladder', { cutFrom: '' }, ['cutFrom']],
    ['a landmark of another limb', { to: 'elbow crease' }, ['to']],
    ['both ends the same', { to: 'ankle crease' }, ['to']],
    ['an ambiguous reduction', { reduction: '1,234' }, ['reduction']],
    ['a reduction that is not cut', { reduction: '80' }, ['reduction']],
    ['worn before its ladder', { firstWorn: '2026-02-28' }, ['firstWorn']],
    ['a day that is not in the calendar', { firstFit: '2026-02-30' }, ['firstFit']],
    ['retired without a reason', { retired: '2026-06-01' }, ['retiredReason']],
    ['a reason without a day', { retiredReason: 'lost' }, ['retired']],
    ['no life', { lifeDays: '0' }, ['lifeDays']],
  ] as const)('refuses %s, at its box', (_, change, boxes) => {
    expect(errorsOf(change, ['2'])).toEqual(boxes);
  });
});

describe('the limits form', () => {
  it('keeps only what differs from the defaults; per cent of a share, comma or point', () => {
    expect(readPolicyForm({ bandHigh: '1,3', tensionSameSd: '0.4', weightLookPct: '' })).toEqual({ kind: 'read', own: { bandHigh: 1.3 } });
    expect(readPolicyForm({ tensionSameSd: '0.5' })).toEqual({ kind: 'read', own: { tensionSameSd: 0.005 } });
  });

  it('refuses a band that does not hold the fitting, letters, nought and part days, each at its box', () => {
    const errors = (typed: Record<string, string>) => {
      const read = readPolicyForm(typed);
      return read.kind === 'refused' ? Object.keys(read.errors) : [];
    };
    expect(errors({ bandLow: '1.1' })).toEqual(['bandLow']);
    expect(errors({ bandHigh: '0.9' })).toEqual(['bandHigh']);
    expect(errors({ weightLookPct: 'five' })).toEqual(['weightLookPct']);
    expect(errors({ shiftAskMm: '0' })).toEqual(['shiftAskMm']);
    expect(errors({ 'review-0': '1.5' })).toEqual(['reviewDays']);
  });

  it('refuses limits of one scale that are not in their order, at the box that was typed', () => {
    const errors = (typed: Record<string, string>) => {
      const read = readPolicyForm(typed);
      return read.kind === 'refused' ? read.errors : {};
    };
    expect(errors({ abpiStop: '0.9' })).toEqual({ abpiStop: expect.stringContaining('(0.9) below') });
    expect(Object.keys(errors({ abpiLow: '1.4' }))).toEqual(['abpiLow']);
    expect(Object.keys(errors({ abpiLow: '0.5' }))).toEqual(['abpiLow']);
    expect(errors({ abpiStop: '0.9', abpiLow: '0.95' })).toEqual({});
    expect(Object.keys(errors({ toeStopMmHg: '300' }))).toEqual(['toeStopMmHg']);
  });
});
