import { describe, expect, it } from 'vitest';
import type { AnalysedPiece } from '@/lib/analysis/analyse-piece';
import { type Tried, type WhatIf, whatIf } from '@/lib/analysis/what-if';
import { readWhatIf } from '@/lib/forms/read-what-if';
import { outgrownChances } from '@/lib/garments/outgrow-date';
import { policyOfPiece } from '@/lib/garments/piece-band';
import { roomByPlace } from '@/lib/garments/room-by-place';
import { isNoAnswer } from '@/lib/outcome';
import type { Piece } from '@/lib/record/patient-record';
import { addDays, calendarDay, daysBetween } from '@/lib/units/calendar-day';
import { cm, recordOf, visitOf } from '../made-up-ladder';
import { analysed, legOf, pieceOf } from '../prompts/made-up-piece';

const D = calendarDay;
const TODAY = '2026-02-10';
const WORN = pieceOf('2026-01-05', { firstWorn: D('2026-01-19'), allowance: cm(2) });
const TRIED: Tried = { makingDays: 14, letOutMm: 10, nextVisit: D('2026-03-10'), visitAfter: D('2026-06-02') };

function childWith(pieces: readonly Piece[], today = TODAY) {
  const visits = [
    visitOf('2026-01-05', [legOf()], { height: '130 cm', weight: '28 kg' }),
    visitOf('2026-02-10', [legOf(1.01)], { height: '130.6 cm', weight: '28.6 kg' }),
  ];
  return analysed(recordOf(visits, { born: D('2017-03-01'), sex: 'F', pieces }), today);
}

function tried(analysis: ReturnType<typeof childWith>, more: Partial<Tried> = {}): WhatIf {
  const answer = whatIf(analysis, analysis.pieces[0] as AnalysedPiece, { ...TRIED, ...more });
  if (isNoAnswer(answer)) throw new Error(answer.noAnswer);
  return answer;
}

function aheadOf(answer: WhatIf, id: string) {
  const ahead = answer.ways.find((way) => way.id === id)?.ahead;
  if (!ahead || isNoAnswer(ahead)) throw new Error('no answer');
  return ahead;
}

describe('chances of being outgrown', () => {
  it('are of the law of today’s dates: a tenth on the early day, a half on the middle one, less on the day before', () => {
    const analysis = childWith([WORN]);
    const [one] = analysis.pieces;
    if (!one || isNoAnswer(one.fit) || isNoAnswer(one.outgrow)) throw new Error('no outlook');
    const { day, earlyDay } = one.outgrow;
    if (!day || !earlyDay) throw new Error('no dates');
    const from = one.fit.latest.visit.day;
    const at = [addDays(earlyDay, -1), earlyDay, addDays(day, -1), day].map((when) => daysBetween(from, when));
    const chances = outgrownChances(one.fit, analysis.record, one.trend, policyOfPiece(analysis.policy, one.band), at);
    if (isNoAnswer(chances)) throw new Error(chances.noAnswer);
    const [beforeEarly, early, beforeMiddle, middle] = chances as [number, number, number, number];
    expect([beforeEarly < 0.1, early >= 0.1 - 1e-4, beforeMiddle < 0.5, middle >= 0.5 - 1e-4]).toEqual([true, true, true, true]);
    expect(early).toBeLessThan(0.11);
  });
});

describe('what if', () => {
  it('counts a piece that is ordered and awaited from the day it is expected, at the latest tomorrow', () => {
    const coming = (expected: string) => pieceOf('2026-02-10', { piece: '2', orderId: 'one', firstWorn: null, expected: D(expected) });
    const alone = tried(childWith([WORN]));
    const soon = tried(childWith([WORN, coming('2026-02-17')]));
    expect([soon.pieces, soon.awaited]).toEqual([[WORN.piece], [{ piece: '2', day: '2026-02-17' }]]);
    expect(tried(childWith([WORN, coming('2026-02-01')])).awaited).toEqual([{ piece: '2', day: '2026-02-11' }]);
    const wait = (answer: WhatIf) => aheadOf(answer, 'wait').daysWithout.median;
    expect(wait(soon)).toBeLessThan(wait(alone));
    expect(aheadOf(soon, 'wait').noneAt[0]).toBeCloseTo(aheadOf(alone, 'wait').noneAt[0] as number, 9);
  });

  it('says the sooner an order the fewer the days without a piece, and uses less of the old one’s life', () => {
    const answer = tried(childWith([WORN]));
    const [now, next, wait] = ['now', 'next-visit', 'wait'].map((id) => aheadOf(answer, id));
    expect((now?.daysWithout.ninety ?? 99) <= (next?.daysWithout.ninety ?? 0)).toBe(true);
    expect((next?.daysWithout.ninety ?? 99) < (wait?.daysWithout.ninety ?? 0)).toBe(true);
    expect((now?.lifeUsed ?? 1) < (wait?.lifeUsed ?? 0)).toBe(true);
    expect(answer.weeks).toHaveLength(now?.noneAt.length ?? 0);
  });

  it('has a later piece the longer it is made, and chances that never fall for the piece itself', () => {
    const [fast, slow] = [7, 42].map((makingDays) => aheadOf(tried(childWith([WORN]), { makingDays }), 'next-visit'));
    expect((fast?.daysWithout.ninety ?? 99) < (slow?.daysWithout.ninety ?? 0)).toBe(true);
    const { asItIs } = tried(childWith([WORN])).outside;
    expect(asItIs).toEqual([...asItIs].sort((one, other) => one - other));
  });

  it('lets out only what room there is, and only where that helps', () => {
    const without = tried(childWith([{ ...WORN, allowance: null }]));
    expect(without.ways.find(({ id }) => id === 'let-out')?.ahead).toEqual({ noAnswer: 'No room is left to let out.' });
    expect(without.outside.letOut).toBeNull();
    const most = tried(childWith([WORN]), { letOutMm: 500 });
    expect(most.outside.letOut).toEqual(tried(childWith([WORN]), { letOutMm: 20 }).outside.letOut);
    expect(most.roomMm).toBeCloseTo(20, 6);
  });

  it('takes pieces that stand in for each other together', () => {
    const answer = tried(childWith([WORN, { ...WORN, piece: '2', firstWorn: D('2026-02-09') }]));
    expect(answer.pieces).toEqual(['1', '2']);
    expect(aheadOf(answer, 'wait').noneAt.at(-1) ?? 1).toBeLessThanOrEqual(aheadOf(tried(childWith([WORN])), 'wait').noneAt.at(-1) ?? 0);
  });

  it('refuses by name a piece out of use, and a ladder too old to look ahead from', () => {
    const retired = childWith([{ ...WORN, retired: D('2026-02-01') }]);
    expect(whatIf(retired, retired.pieces[0] as AnalysedPiece, TRIED)).toEqual({ noAnswer: 'The piece is not in use.' });
    const old = childWith([WORN], '2027-06-01');
    const far = { ...TRIED, nextVisit: D('2027-07-01'), visitAfter: D('2027-09-01') };
    expect(whatIf(old, old.pieces[0] as AnalysedPiece, far)).toMatchObject({ noAnswer: expect.stringContaining('too old to look ahead') });
  });
});

describe('room by place', () => {
  it('is G((1 + gain)^k − 1): 10 % of weight at an adult’s calf, k 0.42, G 85 % of 36 cm', () => {
    const analysis = analysed(recordOf([visitOf('2026-01-05', [legOf()], { weight: '70 kg' })], { pieces: [WORN] }), TODAY);
    const [one] = analysis.pieces;
    if (!one || isNoAnswer(one.fit)) throw new Error('no fit');
    const rows = roomByPlace(one.fit, [0.05, 0.1], 20);
    // Height 20 cm of a knee at 28: place 0.714, between 0.69 (0.42) and 1 (0.38): k 0.417; girth 32 cm.
    const calf = rows.find(({ heightMm }) => Math.round(heightMm) === 200);
    const k = 0.42 + ((200 / 280 - 0.69) / 0.31) * (0.38 - 0.42);
    expect(calf?.forGainMm[1]).toBeCloseTo(320 * 0.85 * (1.1 ** k - 1), 3);
    // One width over a taper: the thin end, at the ankle, is released most.
    const lowest = [...rows].sort((one, other) => one.letOutTightness - other.letOutTightness)[0];
    expect(lowest?.heightMm).toBeCloseTo(40, 6);
    expect(calf && calf.letOutTightness > (lowest?.letOutTightness ?? 9)).toBe(true);
  });
});

describe('what is tried', () => {
  it('starts at the days of the piece and one step, and refuses by name what is none', () => {
    expect(readWhatIf({}, { making: 21, steps: 6 })).toEqual({ tried: { making: 21, out: 1, price: null }, errors: {} });
    expect(readWhatIf({ making: '30', out: '4', price: '120,50' }, { making: 21, steps: 6 }).tried).toEqual({
      making: 30,
      out: 4,
      price: 120.5,
    });
    const wrong = readWhatIf({ making: '0', out: '7', price: 'cheap' }, { making: 21, steps: 6 });
    expect(Object.keys(wrong.errors)).toEqual(['making', 'out', 'price']);
    expect(wrong.tried).toEqual({ making: 21, out: 1, price: null });
    expect(readWhatIf({ out: '1' }, { making: 21, steps: 0 }).errors.out).toBe('Whole figures from 0 to 0.');
  });
});
