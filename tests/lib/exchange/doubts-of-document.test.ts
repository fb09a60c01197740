import { describe, expect, it } from 'vitest';
import { analysisDocument } from '@/lib/exchange/analysis-document';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import type { PatientRecord } from '@/lib/record/patient-record';
import { isSamePerson } from '@/lib/record/same-person';
import { excessAt } from '@/lib/summary/excess-sentence';
import { calendarDay } from '@/lib/units/calendar-day';
import { ladderOf, recordOf, visitOf } from '../made-up-ladder';
import { analysed, legOf } from '../prompts/made-up-piece';

const grown = { weight: '70', height: '168' };

/** The limbs of the document's only patient. */
function limbsOf(record: PatientRecord) {
  const [patient] = analysisDocument([record], DEFAULT_POLICY, calendarDay('2026-11-25'), { variance: 1, n: 0 }).patients;
  return patient?.limbs ?? [];
}

const kinds = (doubts: readonly { readonly kind: string }[] | undefined) => doubts?.map(({ kind }) => kind);

describe('what the command line asks, as the sheet does', () => {
  it('a height with exchanged digits is a doubt of each limb of that visit, without a place, and the verdict cannot be told', () => {
    const child = { born: calendarDay('2018-01-01'), affected: [{ limb: 'leg' as const, side: 'left' as const }] };
    const both = [legOf(), legOf(1, { side: 'right' })];
    const visits = [
      visitOf('2026-01-05', both, { height: '127', weight: '26' }),
      visitOf('2026-05-05', both, { height: '192', weight: '27' }),
    ];
    for (const limb of limbsOf(recordOf(visits, child))) {
      expect(limb.visits[1]?.doubts).toContainEqual({ kind: 'height', distanceMm: null, message: expect.stringContaining('129\u202fcm') });
      expect(limb.visits[0]?.doubts.filter(({ kind }) => kind === 'height')).toEqual([]);
      expect(limb.visits[1]?.vsBaseline?.verdict).toBe('cannot-tell');
    }
  });

  it('24 rungs every 15 cm are asked about: no leg is 3.6 m long', () => {
    const long = ladderOf({ girths: Array.from({ length: 24 }, (_, rung): [number, number] => [15 * (rung + 1), 25 + rung]) });
    const [limb] = limbsOf(recordOf([visitOf('2026-01-05', [long], grown)]));
    expect(limb?.visits[0]?.doubts.find(({ kind }) => kind === 'body-size')?.message).toMatch(
      /^Is the interval right\? .*360\.0\s?cm long/,
    );
  });

  it('two ladders of one day are never a change; after a treatment of that day they are', () => {
    const [first, again] = [visitOf('2026-01-05', [legOf()], grown), visitOf('2026-01-05', [legOf(0.97)], { ...grown, time: '12:00' })];
    const [limb] = limbsOf(recordOf([first, again]));
    expect(kinds(limb?.visits[1]?.doubts)).toContain('same-day');
    expect([limb?.visits[1]?.vsBaseline, limb?.visits[1]?.reasons.vsBaseline]).toEqual([
      null,
      expect.stringContaining('how well the tape repeats'),
    ]);
    const [treated] = limbsOf(recordOf([first, { ...again, occasion: 'after-treatment' }]));
    expect(kinds(treated?.visits[1]?.doubts)).not.toContain('same-day');
    expect(treated?.visits[1]?.vsBaseline?.volumeChangePct).toBeCloseTo(100 * (0.97 ** 2 - 1), 1);
  });

  it('left and right changed round are asked about, and no verdict is given on them', () => {
    const taken = (left: number, right: number) => [legOf(left), legOf(right, { side: 'right' })];
    const visits = [visitOf('2026-01-05', taken(1.15, 1), grown), visitOf('2026-03-05', taken(1, 1.15), grown)];
    const limbs = limbsOf(recordOf(visits));
    expect(kinds(limbs[0]?.visits[1]?.doubts)).toContain('sides-swapped');
    expect(limbs.map((limb) => limb.visits[1]?.vsBaseline?.verdict)).toEqual(['cannot-tell', 'cannot-tell']);
  });

  it('posture and hour that nobody wrote down are said, and never taken for the same', () => {
    const visits = [
      visitOf('2026-01-05', [legOf()], { ...grown, posture: null }),
      visitOf('2026-03-05', [legOf(1.01)], { ...grown, time: null }),
    ];
    const because = limbsOf(recordOf(visits))[0]?.visits[1]?.vsBaseline?.because.join(' ');
    expect(because).toMatch(/Posture is not on record at both visits.*The hour is not on record at both visits/);
  });
});

describe('the difference between the limbs', () => {
  it('stands from the first visit on, in ml and per cent with its error: girths 10 % larger are 21 % of volume', () => {
    const record = recordOf([visitOf('2026-01-05', [legOf(1.1), legOf(1, { side: 'right' })], grown)]);
    const analysis = analysed(record, '2026-01-05');
    const left = analysis.limbs.find(({ series }) => series.side === 'left');
    const said = left?.visits[0] && excessAt(analysis, left, left.visits[0].at);
    expect(said).toMatch(
      /^The left leg is [\d,]+\u202fml larger than the right, give or take [\d,]+\u202fml: \+21\.0\u202f% \(±\u202f\d\.\d\u202f%\), [\d,]+\u202fml against [\d,]+\u202fml over 4\.0–60\.0\u202fcm above the ankle crease of both, 5 Jan 2026\.$/,
    );
    expect(excessAt(analysis, analysis.limbs[1] as never, analysis.limbs[1]?.visits[0]?.at as never)).toBeUndefined();
  });
});

describe('one measurer', () => {
  it('is known by the full name, its short form and its initials', () => {
    for (const [one, other] of [
      ['RA', 'R. Adeyemi'],
      ['r.a.', 'Rosa Adeyemi'],
      ['R. Adeyemi', 'Rosa Adeyemi'],
      ['RA', ' ra '],
    ]) {
      expect([one, other, isSamePerson(one ?? null, other ?? null)]).toEqual([one, other, true]);
    }
    for (const [one, other] of [
      ['R. Adeyemi', 'R. Alvarez'],
      ['RA', 'RB'],
      ['KD', 'R. Adeyemi'],
      [null, null],
      ['', ''],
    ]) {
      expect([one, other, isSamePerson(one ?? null, other ?? null)]).toEqual([one, other, false]);
    }
  });
});
