import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { figureEvidence } from '@/lib/doubts/figure-evidence';
import { measureDoubts } from '@/lib/doubts/measure-doubts';
import { recordMeasureDoubts } from '@/lib/doubts/record-measure-doubts';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { MEASURES, measureOf } from '@/lib/parts/catalogue';
import type { PartSide } from '@/lib/parts/measure';
import type { NamedMeasure, PatientRecord, Sex, Visit } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import type { LengthUnit } from '@/lib/units/length';
import { lengthOf, massOf } from '@/tests/properties/body-slips';
import { cm, recordOf, visitOf } from '../made-up-ladder';

type Given = readonly [measure: string, side: PartSide, text: string, unit?: LengthUnit];

function visitOn(day: string, given: readonly Given[], body: { height?: string; weight?: string } = {}): Visit {
  return {
    day: calendarDay(day),
    time: null,
    posture: null,
    measurer: null,
    note: null,
    ladders: [],
    height: body.height ? lengthOf(body.height, 'cm') : null,
    weight: body.weight ? massOf(body.weight, 'kg') : null,
    measures: given.map(([measure, side, text, unit = 'cm']): NamedMeasure => {
      const part = measureOf(measure)?.part;
      if (!part) throw new Error(measure);
      return { part, side, measure, length: lengthOf(text, unit) };
    }),
  };
}

function asked(visits: readonly Visit[], more: { born?: string; sex?: Sex; affectedParts?: PatientRecord['affectedParts'] } = {}) {
  const { born = '1980-01-01', sex = 'F', ...rest } = more;
  const record: PatientRecord = { reference: 'R', born: calendarDay(born), sex, affected: [], visits, pieces: [], ...rest };
  return [...recordMeasureDoubts(record, DEFAULT_POLICY).values()].flat().map(({ taken, kind, message, wouldFitMm }) => ({
    of: `${taken.side} ${taken.measure}`,
    kind,
    message,
    wouldFitMm,
  }));
}

const BODY = { height: '165', weight: '70' };

describe('questions about named measures', () => {
  it('at a first visit: a wrong tens digit beside height and weight, with the figure that would fit', () => {
    expect(asked([visitOn('2026-01-05', [['hand-girth', 'left', '28.7']], BODY)])).toMatchObject([
      {
        of: 'left hand-girth',
        kind: 'tens-digit',
        message: expect.stringMatching(
          /^Left hand girth: 28\.7\u202fcm or 18\.7\u202fcm\? By the other figures .* With another tens digit it would fit\.$/,
        ),
        wouldFitMm: 187,
      },
    ]);
  });

  it.each([
    ['1.87', 'times-ten', 187],
    ['81.7', 'swapped-digits', 187],
    ['7.4', 'inch-centimetre', 187.96],
  ] as const)('%s cm for 18.7: %s', (text, kind, wouldFit) => {
    const [one, ...more] = asked([visitOn('2026-01-05', [['hand-girth', 'left', text]], BODY)]);
    expect(more).toEqual([]);
    expect(one?.kind).toBe(kind);
    expect(one?.wouldFitMm).toBeCloseTo(wouldFit, 6);
  });

  it('the side that is wrong is asked about, not the other, whichever was typed first', () => {
    for (const wrong of ['left', 'right'] as const) {
      const given = (['left', 'right'] as const).map((side): Given => ['ball-girth', side, side === wrong ? '32.8' : '22.9']);
      expect(asked([visitOn('2026-01-05', given, BODY)]).map(({ of }) => of)).toEqual([`${wrong} ball-girth`]);
    }
  });

  it('a finger, of which no survey is at hand, is held against the last visit and the other hand', () => {
    const before = visitOn('2026-01-05', [['index-finger-base-girth', 'left', '6.4']]);
    const [one] = asked([before, visitOn('2026-03-05', [['index-finger-base-girth', 'left', '7.6']])]);
    expect(one).toMatchObject({ of: 'left index-finger-base-girth', message: expect.stringContaining('On 5 Jan 2026 it was 6.4') });
    expect(asked([before, visitOn('2026-03-05', [['index-finger-base-girth', 'left', '6.6']])])).toEqual([]);
  });

  it('a measure of another part pasted in is asked about', () => {
    const found = asked([
      visitOn(
        '2026-01-05',
        [
          ['neck-girth', 'middle', '54.9'],
          ['head-girth', 'middle', '54.9'],
        ],
        BODY,
      ),
    ]);
    expect(found.map(({ of }) => of)).toContain('middle neck-girth');
  });

  it('a slip lends no weight against what is typed after it: the next visit is held against the last trusted one', () => {
    const visits = [
      visitOn('2026-01-05', [['hip-girth', 'middle', '100']], BODY),
      visitOn('2026-02-05', [['hip-girth', 'middle', '120']], BODY),
      visitOn('2026-03-05', [['hip-girth', 'middle', '101']], BODY),
    ];
    expect(asked(visits).map(({ message }) => message)).toEqual([
      expect.stringMatching(/^Hip girth: 120\.0\u202fcm or .*\? On 5 Jan 2026 it was 100\.0\u202fcm/),
    ]);
  });

  it('two visits that say the same are no slip, however unusual; one that the next contradicts stays asked about', () => {
    const head = (day: string, text: string) => visitOn(day, [['head-girth', 'middle', text]], BODY);
    expect(asked([head('2026-01-05', '66')]).length).toBe(1);
    expect(asked([head('2026-01-05', '66'), head('2026-03-05', '66.3')])).toEqual([]);
    expect(asked([head('2026-01-05', '66'), head('2026-03-05', '55.3')])).toMatchObject([{ kind: 'tens-digit', wouldFitMm: 560 }]);
  });

  it('a height that is itself the slip raises no question about the measures that fit each other', () => {
    const given: Given[] = [
      ['waist-height-navel', 'middle', '97.5'],
      ['crotch-height', 'middle', '77.8'],
      ['sitting-height', 'middle', '85.6'],
      ['foot-length', 'left', '24.6'],
      ['hand-length', 'left', '18.1'],
    ];
    expect(asked([visitOn('2026-01-05', given, { height: '193', weight: '67' })])).toEqual([]);
    expect(asked([visitOn('2026-01-05', given, { height: '163', weight: '67' })])).toEqual([]);
  });

  it('an affected hand may be much thicker than the other one; one that is not said to be is asked about', () => {
    const swollen = visitOn(
      '2026-01-05',
      [
        ['hand-girth', 'left', '22.4'],
        ['hand-girth', 'right', '18.6'],
      ],
      BODY,
    );
    expect(asked([swollen]).length).toBe(1);
    expect(asked([swollen], { affectedParts: [{ part: 'hand', side: 'left' }] })).toEqual([]);
  });

  it('a child’s foot may grow as feet do, and its wrong tens digit is asked about', () => {
    const first = visitOn('2026-01-05', [['foot-length', 'left', '16.6']], { height: '105' });
    const grown = (text: string) =>
      asked([first, visitOn('2026-07-05', [['foot-length', 'left', text]], { height: '108' })], { born: '2021-07-05' });
    expect(grown('17.2')).toEqual([]);
    expect(grown('27.2')).toMatchObject([{ kind: 'tens-digit', wouldFitMm: 172 }]);
  });

  /* Usual figures of infants from memory: no survey of them is at hand, and only gross slips are asked about. */
  it.each([
    ['2026-02-20', '51', { 'head-girth': '35', 'chest-girth': '33.5', 'foot-length': '7.8', 'hand-length': '6.2', 'hip-girth': '28' }],
    [
      '2025-09-01',
      '67',
      { 'head-girth': '43.3', 'chest-girth': '43.5', 'foot-length': '10.5', 'hand-length': '8.2', 'neck-girth': '22.5' },
    ],
    ['2024-09-01', '81', { 'head-girth': '47.3', 'chest-girth': '48.5', 'foot-length': '13', 'hand-length': '9.8', 'hip-girth': '47' }],
  ] as const)('an infant born on %s is left alone, a foot ten times as long asked about', (born, height, measures) => {
    const given = Object.entries(measures).map(([id, text]): Given => [id, measureOf(id)?.sides === 'both' ? 'left' : 'middle', text]);
    expect(asked([visitOn('2026-03-02', given, { height })], { born })).toEqual([]);
    const wrong = given.map((one): Given => (one[0] === 'foot-length' ? [one[0], one[1], String(10 * Number(one[2]))] : one));
    expect(asked([visitOn('2026-03-02', wrong, { height })], { born })).toMatchObject([{ of: 'left foot-length' }]);
  });

  it('inches are read as inches', () => {
    expect(asked([visitOn('2026-01-05', [['foot-length', 'left', '9.5', 'in']], BODY)])).toEqual([]);
    expect(asked([visitOn('2026-01-05', [['foot-length', 'left', '24.5', 'in']], BODY)])).toMatchObject([{ kind: 'inch-centimetre' }]);
  });
});

describe('sum checks', () => {
  it('a part is not larger than its whole, at any age', () => {
    const given = (withThumb: string): Given[] => [
      ['hand-girth', 'left', '18.8'],
      ['hand-girth-with-thumb', 'left', withThumb],
    ];
    expect(asked([visitOn('2026-01-05', given('22.5'))])).toEqual([]);
    const [one, ...more] = asked([visitOn('2026-01-05', given('18.6'))]);
    expect(one).toMatchObject({
      kind: 'sum-check',
      message: expect.stringContaining('Left hand girth is not smaller than left hand girth with thumb'),
    });
    expect(more).toEqual([]);
  });

  it('front and back rise make up the crotch length', () => {
    const rises = (front: string): Given[] => [
      ['crotch-length', 'middle', '62'],
      ['crotch-length-front', 'middle', front],
      ['crotch-length-back', 'middle', '34'],
    ];
    expect(asked([visitOn('2026-01-05', rises('28.5'))])).toEqual([]);
    expect(asked([visitOn('2026-01-05', rises('36'))])).toMatchObject([{ kind: 'sum-check' }]);
  });

  it('crotch height as a share of the navel’s height, where each alone could be', () => {
    const found = asked([
      visitOn('2026-01-05', [
        ['crotch-height', 'middle', '84'],
        ['waist-height-navel', 'middle', '96.5'],
      ]),
    ]);
    expect(found.length).toBe(1);
    expect(found[0]?.message).toMatch(/^(Crotch height|Height of the navel): /);
  });
});

describe('the odds that a figure is wrong', () => {
  const expected = { mean: Math.log(212), sd: 0.03 };
  const oddsOf = (cm: number, sd = 0.03) =>
    figureEvidence({ text: cm.toFixed(1), value: cm, unitValue: 10, otherUnit: 2.54 }, { ...expected, sd }, 0.01).logOdds;

  it('are larger of every figure six SDs off than of any within one', () => {
    fc.assert(
      fc.property(fc.integer({ min: -6, max: 6 }), fc.integer({ min: 0, max: 60 }), fc.constantFrom(-1, 1), (near, far, sign) => {
        expect(oddsOf(21.2 + (sign * (40 + far)) / 10)).toBeGreaterThan(oddsOf(21.2 + near / 10));
      }),
    );
  });

  it('are those of the share of wrong figures where the figure says nothing: by far the smaller at what is expected', () => {
    expect(oddsOf(21.2)).toBeLessThan(Math.log(0.01));
    expect(oddsOf(31.2)).toBeGreaterThan(0);
  });

  it('are finite for every measure, however far out the figure', () => {
    for (const cm of [0.1, 0.5, 249.9]) for (const sd of [0.001, 0.01, 0.5]) expect(Number.isFinite(oddsOf(cm, sd))).toBe(true);
    expect(MEASURES.length).toBeGreaterThan(60);
  });
});

describe('a measure taken twice', () => {
  it('is asked about where the two lie further apart than three SDs of two readings, the second offered', () => {
    // Hand girth, reading SD 2 mm (clinic default): 3 × √2 × 2 = 8.5 mm.
    const taken = (again: number): NamedMeasure => ({
      part: 'hand',
      side: 'left',
      measure: 'hand-girth',
      length: cm(18.7),
      again: cm(again),
    });
    const doubts = (again: number) => {
      const visit = visitOf('2026-11-20', [], { height: '165', weight: '62', measures: [taken(again)] });
      return measureDoubts(recordOf([visit]), visit, [], DEFAULT_POLICY).map(({ kind, wouldFitMm }) => [kind, wouldFitMm]);
    };
    expect(doubts(19.5)).toEqual([]);
    expect(doubts(19.6)).toEqual([['taped-twice', 196]]);
  });
});
