import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { analysisDocument } from '@/lib/exchange/analysis-document';
import { readLaddersCsv } from '@/lib/exchange/read-ladders-csv';
import { figuresKey } from '@/lib/exchange/same-visit';
import { writeLaddersCsv } from '@/lib/exchange/write-ladders-csv';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { MEASURES } from '@/lib/parts/catalogue';
import { calendarDay } from '@/lib/units/calendar-day';
import { file, HEADER, row, THREE } from './files';

const TODAY = calendarDay('2026-11-25');
const NOTHING = { zero: '', affected: '', distance: '' };

type Cells = Parameters<typeof row>[0];
const measured = (cells: Cells) => row({ ...NOTHING, limb: 'hand', side: 'left', landmark: 'hand-girth', girth: '18.7', ...cells });

function recordsOf(...rows: readonly string[]) {
  const read = readLaddersCsv(file(...rows), TODAY, 'kept');
  if (read.kind === 'fault') throw new Error(`line ${read.fault.line}, ${read.fault.column}: ${read.fault.reason}`);
  return read.records;
}

function faultOf(...rows: readonly string[]) {
  const read = readLaddersCsv(file(...rows), TODAY, 'kept');
  return read.kind === 'fault' ? read.fault : undefined;
}

const documentOf = (...rows: readonly string[]) =>
  analysisDocument(recordsOf(...rows), DEFAULT_POLICY, TODAY, { variance: 1, n: 0 }).patients[0];

describe('rows of named measures', () => {
  it('are read to the typed text, each under its part and side, beside the ladders of the visit', () => {
    const [record] = recordsOf(
      ...THREE,
      measured({ affected: 'yes', height: '165 cm' }),
      measured({ limb: 'foot', side: 'right', landmark: 'foot-length', girth: '9 1/2', unit: 'in', note: 'standing' }),
      measured({ limb: 'trunk', side: 'middle', landmark: 'neck-girth', girth: '"33,5"' }),
    );
    expect(record?.visits.length).toBe(1);
    expect(record?.visits[0]?.ladders.length).toBe(1);
    expect(record?.visits[0]?.measures).toEqual([
      { part: 'hand', side: 'left', measure: 'hand-girth', length: { text: '18.7', unit: 'cm', nm: 187_000_000 } },
      { part: 'foot', side: 'right', measure: 'foot-length', length: { text: '9 1/2', unit: 'in', nm: 241_300_000 }, note: 'standing' },
      { part: 'trunk', side: 'middle', measure: 'neck-girth', length: { text: '33,5', unit: 'cm', nm: 335_000_000 } },
    ]);
    expect(record?.affected).toEqual([{ limb: 'leg', side: 'left' }]);
    expect(record?.affectedParts).toEqual([{ part: 'hand', side: 'left' }]);
  });

  it.each<[string, Cells, string, RegExp]>([
    ['an unknown id', { landmark: 'hand-grith' }, 'landmark', /^“hand-grith” is not a measure of the hand: hand-girth, /],
    ['no id', { landmark: '' }, 'landmark', /^This cell is empty\.$/],
    ['a measure of another part', { limb: 'foot' }, 'landmark', /^The hand-girth is a measure of the hand, not of the foot\.$/],
    ['the middle of a hand', { side: 'middle' }, 'side', /^The hand-girth is taken on the left or the right\.$/],
    ['the left of a hip', { limb: 'trunk', landmark: 'hip-girth' }, 'side', /^The hip-girth is taken once: write middle\.$/],
    ['a side that is none', { side: 'both' }, 'side', /^“both” is not one of left, right, middle\.$/],
    ['a zero', { zero: 'wrist-crease' }, 'zero', /^A named measure has no zero\. Leave this cell empty\.$/],
    ['a distance', { distance: '0' }, 'distance', /^A named measure has no distance\. Leave this cell empty\.$/],
    ['no value', { girth: '' }, 'girth', /^This cell is empty\.$/],
    ['a value of nought', { girth: '0' }, 'girth', /not a reading/],
    ['a value in words', { girth: 'wide' }, 'girth', /Type figures only\.$/],
    ['a value beyond any body', { girth: '1870' }, 'girth', /is larger than any limb/],
    ['another unit', { unit: 'mm' }, 'unit', /^“mm” is not one of in, cm\.$/],
    ['affected that is neither', { affected: 'maybe' }, 'affected', /^“maybe” is not one of yes, no\.$/],
    ['a part that is none', { limb: 'toe' }, 'limb', /^“toe” is not one of leg, arm, hand, foot, trunk, head, residual-limb\.$/],
  ])('%s is refused by line and column', (_what, cells, column, reason) => {
    const fault = faultOf(...THREE, measured(cells));
    expect([fault?.line, fault?.column]).toEqual([5, column]);
    expect(fault?.reason).toMatch(reason);
  });

  it('the same measure twice on one day is refused, at whatever hour and under whichever part', () => {
    const neck = { side: 'middle', landmark: 'neck-girth', girth: '33' } as const;
    const fault = faultOf(measured({ limb: 'trunk', ...neck, time: '09:00' }), measured({ limb: 'head', ...neck, time: '15:00' }));
    expect(fault).toMatchObject({ line: 3, column: 'landmark', reason: 'The neck-girth (middle) stands twice on 2026-01-05.' });
    expect(faultOf(measured({}), measured({ side: 'right' }), measured({ day: '2026-02-05' }))).toBeUndefined();
  });

  it('affected that contradicts an earlier row is refused; an empty cell says nothing', () => {
    expect(faultOf(measured({ affected: 'yes' }), measured({ landmark: 'wrist-girth', affected: 'no' }))).toMatchObject({
      column: 'affected',
    });
    expect(faultOf(measured({ affected: 'yes' }), measured({ landmark: 'wrist-girth', girth: '15.5' }))).toBeUndefined();
  });

  it('are refused like any unknown limb where nobody asked for them', () => {
    expect(readLaddersCsv(file(measured({})), TODAY)).toMatchObject({
      kind: 'fault',
      fault: { line: 2, column: 'limb', reason: '“hand” is not one of leg, arm.' },
    });
  });

  it('come back as they were from a file that was written of them', () => {
    const someMeasure = fc.constantFrom(...MEASURES).chain((measure) =>
      fc.record({
        limb: fc.constantFrom(...(measure.alsoOf ? [measure.part, measure.alsoOf] : [measure.part])),
        side: fc.constantFrom(...(measure.sides === 'both' ? ['left', 'right'] : ['middle'])),
        landmark: fc.constant(measure.id),
        unit: fc.constantFrom('cm', 'in'),
        girth: fc.constantFrom('12', '12.5', '33 1/4', '40¾'),
        note: fc.constantFrom('', 'after rest', '=scar'),
      }),
    );
    const visits = fc.uniqueArray(someMeasure, { maxLength: 12, selector: ({ side, landmark }) => `${side} ${landmark}` });
    fc.assert(
      fc.property(visits, (rows) => {
        const first = recordsOf(
          ...THREE,
          ...rows.map((cells) => measured({ ...cells, note: cells.note === '=scar' ? "'=scar" : cells.note })),
        );
        const again = readLaddersCsv(writeLaddersCsv(first), TODAY, 'kept');
        expect(again).toEqual({ kind: 'read', records: first });
      }),
      { numRuns: 60 },
    );
  });

  it('make two visits two', () => {
    const [one, other] = [recordsOf(measured({})), recordsOf(measured({ girth: '18.8' }))].map(([record]) => record?.visits[0]);
    if (!one || !other) throw new Error('no visit');
    expect(figuresKey(one)).not.toBe(figuresKey(other));
    expect(figuresKey({ ...one, measures: [] })).toBe(figuresKey({ ...other, measures: null }));
  });
});

describe('named measures in the document', () => {
  it('are not there at all without such rows', () => {
    expect(Object.keys(documentOf(...THREE) ?? {})).toEqual(['patient', 'limbs', 'pieces', 'prompts']);
  });

  it('stand by part, side and measure with change, its smallest real size by two readings, and questions', () => {
    const found = documentOf(
      measured({ height: '165 cm', weight: '70 kg' }),
      measured({ day: '2026-03-05', girth: '19.4' }),
      measured({ day: '2026-04-05', girth: '29.4' }),
      measured({ day: '2026-05-05', girth: '19.3' }),
    );
    const [series, ...more] = found?.measures ?? [];
    expect(more).toEqual([]);
    expect(series).toMatchObject({ part: 'hand', side: 'left', measure: 'hand-girth' });
    /* 1.96 × √2 × 2 mm: 5.544 mm of 187 mm are 2.965 %, of 194 mm 2.858 %; worked out by hand. */
    expect(
      series?.visits.map(({ day, mm, sdMm, changePct, smallestRealChangePct }) => [day, mm, sdMm, changePct, smallestRealChangePct]),
    ).toEqual([
      ['2026-01-05', 187, 2, null, null],
      ['2026-03-05', 194, 2, 3.743, 2.965],
      ['2026-04-05', 294, 2, 51.546, 2.858],
      ['2026-05-05', 193, 2, -0.515, 2.858],
    ]);
    expect(series?.visits.map(({ doubts }) => doubts.map(({ kind }) => kind))).toEqual([[], [], ['tens-digit'], []]);
    expect(series?.visits[0]?.reasons).toEqual({ changePct: 'This is the first visit with this measure.' });
    expect(series?.visits[3]?.since).toBe('2026-03-05');
  });

  it('the scale of error counts for them too', () => {
    const [record] = recordsOf(measured({}), measured({ day: '2026-03-05', girth: '19.4' }));
    if (!record) throw new Error('no record');
    const [patient] = analysisDocument([record], DEFAULT_POLICY, TODAY, { variance: 4, n: 0 }).patients;
    const visits = patient?.measures?.[0]?.visits;
    expect(visits?.map(({ sdMm, smallestRealChangePct }) => [sdMm, smallestRealChangePct])).toEqual([
      [4, null],
      [4, 5.929],
    ]);
  });

  it('a hand of which everything was taken has a shape index, said to be one, and no limb gets larger by it', () => {
    const lengths = {
      thumb: '6.0 6.8 5.6',
      'index-finger': '7.0 6.4 5.0',
      'middle-finger': '7.8 6.5 5.0',
      'ring-finger': '7.2 6.0 4.7',
      'little-finger': '5.8 5.3 4.2',
    };
    const digits = Object.entries(lengths).flatMap(([digit, figures]) =>
      figures.split(' ').map((girth, index) => measured({ landmark: `${digit}-${['length', 'base-girth', 'tip-girth'][index]}`, girth })),
    );
    const hand = [
      measured({ landmark: 'palm-length', girth: '9' }),
      measured({ landmark: 'wrist-girth', girth: '16' }),
      measured({ girth: '20' }),
      ...digits,
    ];
    const found = documentOf(...THREE, ...hand);
    /* Check values of the research page, section 2. */
    expect(found?.shapeIndices).toMatchObject([
      {
        day: '2026-01-05',
        part: 'hand',
        side: 'left',
        palmMl: 233.003,
        digitsMl: 84.179,
        ml: 317.182,
        words: expect.stringMatching(/^Shape index/),
      },
    ]);
    const bare = documentOf(...THREE);
    expect(found?.limbs).toEqual(bare?.limbs);
  });

  it('a child’s foot is held beside what growth alone makes of it', () => {
    const foot = (day: string, girth: string) =>
      measured({ born: '2021-07-05', sex: 'M', limb: 'foot', landmark: 'foot-length', day, girth });
    const found = documentOf(foot('2025-07-05', '16.6'), foot('2026-01-03', '17.2'));
    const visit = found?.measures?.[0]?.visits[1];
    /* 11 mm a year from 2 to 5 years (research page, section 5): 182 days are 5.48 mm of 166. */
    expect(visit?.expectedChangePct).toBeCloseTo((100 * 11 * (182 / 365.25)) / 166, 2);
  });

  it('the header alone is still a file without patients', () => {
    expect(readLaddersCsv(`${HEADER}\n`, TODAY, 'kept')).toEqual({ kind: 'read', records: [] });
  });
});
