import { describe, expect, it } from 'vitest';
import { calendarDay } from '@/lib/units/calendar-day';
import { bodyUnitsBeside, withExchanged, withGrid, withMoved, withSidesExchanged } from '@/lib/visit-form/change-set-up';
import { sheetRows } from '@/lib/visit-form/entry-rows';
import { firstSheet } from '@/lib/visit-form/first-sheet';
import { carriedSheets, formOfVisit } from '@/lib/visit-form/form-of-visit';
import { readVisitForm } from '@/lib/visit-form/read-visit-form';
import { type LimbSheet, type VisitForm, withCell } from '@/lib/visit-form/visit-form';
import { visitFormSchema } from '@/lib/visit-form/visit-form-schema';
import { visitOn } from '@/tests/db/made-up-records';

const TODAY = calendarDay('2026-11-25');
const BORN = calendarDay('1980-01-01');

const UNITS = { lengthUnit: 'in', massUnit: 'lb' } as const;

const form = (sheet: LimbSheet, change: Partial<VisitForm> = {}): VisitForm => ({
  day: '2026-11-25',
  time: '14:26',
  posture: 'lying',
  measurer: 'R. Adeyemi',
  height: '',
  heightUnit: 'in',
  weight: '',
  massUnit: 'lb',
  note: '',
  sheets: [sheet],
  readings: [],
  ...change,
});

/** 1½ in is 38,100,000 nm, by 1 in = 25,400,000 nm. */
const STEP = 38_100_000;
const key = (side: 'left' | 'right', rung: number) => `${side}/${rung * STEP}`;
const leg = firstSheet('leg', 'in');
const filled = (sheet: LimbSheet, figures: Readonly<Record<string, string>>) =>
  Object.entries(figures).reduce((one, [where, text]) => withCell(one, where, { text }), sheet);
const places = (sheet: LimbSheet) => sheetRows(sheet).map((row) => row.at.right?.text);

describe('rows of a sheet', () => {
  it('go up the grid to the far landmark and end there, wherever it falls', () => {
    const sheet = { ...leg, marks: { 'right/gluteal-fold': '7 3/8', 'left/gluteal-fold': '7 3/8' } };
    expect(places(sheet)).toEqual(['1 1/2', '3', '4 1/2', '6', '7 3/8']);
  });

  it('leave out the grid row that would crowd the last one, and keep it as soon as it holds a figure', () => {
    const sheet = { ...leg, marks: { 'right/gluteal-fold': '6 1/4' } };
    expect(places(sheet)).toEqual(['1 1/2', '3', '4 1/2', '6 1/4']);
    expect(places(filled(sheet, { [key('right', 4)]: '12' }))).toEqual(['1 1/2', '3', '4 1/2', '6', '6 1/4']);
  });

  it('are as many as last time while the far landmark is not typed, and one more on demand', () => {
    expect(places({ ...leg, count: 2, more: 1 })).toEqual(['1 1/2', '3', '4 1/2']);
  });

  it('hold extra places in order, and nothing where no interval can be read', () => {
    expect(places({ ...leg, count: 2, extras: [{ place: '2 1/4', name: 'smallest ankle' }] })).toEqual(['1 1/2', '2 1/4', '3']);
    expect(places({ ...leg, interval: '' })).toEqual([]);
    expect(places({ ...leg, interval: '1,234' })).toEqual([]);
  });

  it('never grow without bound for a tiny interval', () => {
    expect(sheetRows({ ...leg, interval: '1/64', marks: { 'right/gluteal-fold': '90' } }).length).toBeLessThanOrEqual(121);
  });
});

describe('changes of the set-up', () => {
  const typed = filled(leg, { [key('right', 1)]: '8', [key('right', 2)]: '9', [key('right', 3)]: '10', [key('left', 2)]: '9 1/2' });

  it('another interval keeps each figure on the rung it was typed at, by number', () => {
    const wider = withGrid(typed, { interval: '2', unit: 'in', fromZero: false });
    expect(wider.cells['right/152400000']?.text).toBe('10');
    expect(Object.keys(wider.cells)).toHaveLength(4);
  });

  it('an interval that cannot be read changes nothing', () => {
    expect(withGrid(typed, { interval: '2/', unit: 'in', fromZero: false })).toBe(typed);
  });

  it('later figures move one rung on and leave the left-out one empty, or one back over the doubled one', () => {
    const on = withMoved(typed, 'right', String(2 * STEP), 1);
    expect([1, 2, 3, 4].map((rung) => on.cells[key('right', rung)]?.text)).toEqual(['8', undefined, '9', '10']);
    const back = withMoved(typed, 'right', String(3 * STEP), -1);
    expect([1, 2, 3].map((rung) => back.cells[key('right', rung)]?.text)).toEqual(['8', '10', undefined]);
    expect(back.cells[key('left', 2)]?.text).toBe('9 1/2');
  });

  it('two figures, or both sides, change places', () => {
    const exchanged = withExchanged(typed, 'right', String(STEP), String(2 * STEP));
    expect([1, 2].map((rung) => exchanged.cells[key('right', rung)]?.text)).toEqual(['9', '8']);
    expect(withSidesExchanged(typed).cells[key('left', 3)]?.text).toBe('10');
  });
});

describe('height and weight beside another tape', () => {
  const untyped = { height: '', weight: ' ' };

  it('go with it while nothing is typed', () => {
    expect(bodyUnitsBeside(untyped, 'cm')).toEqual({ heightUnit: 'cm', massUnit: 'kg' });
  });

  it('keep the unit in which they were typed', () => {
    expect(bodyUnitsBeside({ height: '65', weight: '140' }, 'cm')).toEqual({});
  });

  it('leave the weight beside a tape in inches', () => {
    expect(bodyUnitsBeside(untyped, 'in')).toEqual({ heightUnit: 'in' });
  });
});

describe('reading a form', () => {
  it('gives exact lengths beside the text as typed', () => {
    const read = readVisitForm(form(filled(leg, { [key('right', 1)]: '8-1/8' }), { height: '5 ft 6 in' }), { born: BORN, today: TODAY });
    if (read.kind === 'refused') throw new Error(JSON.stringify(read.refusals));
    expect(read.visit.ladders).toHaveLength(1);
    expect(read.visit.ladders[0]?.rungs[0]).toMatchObject({
      distance: { text: '1 1/2', nm: STEP },
      girth: { text: '8-1/8', nm: 206_375_000 },
    });
    expect(read.visit.height?.nm).toBe(1_676_400_000);
  });

  it('names every box that cannot be read, and saves nothing by half', () => {
    const read = readVisitForm(
      form(filled(leg, { [key('right', 1)]: '12/', [key('left', 1)]: '8' }), { day: '2026-11-26', height: '5 ft 12', time: '25:00' }),
      { born: BORN, today: TODAY },
    );
    expect(read.kind === 'refused' && read.refusals.map((one) => one.where)).toEqual(['day', 'time', 'height', `0/${key('right', 1)}`]);
  });

  it('asks where the far landmark is when the last girth stands there', () => {
    const read = readVisitForm(form(filled(leg, { 'right/end': '18' })), { born: BORN, today: TODAY });
    expect(read.kind === 'refused' && read.refusals[0]).toEqual({
      where: '0/right/gluteal-fold',
      reason: 'Type where the gluteal fold of the right leg is.',
    });
  });

  it('refuses an empty form, and a second taping without a first', () => {
    expect(readVisitForm(form(leg), { born: BORN, today: TODAY })).toMatchObject({ refusals: [{ where: 'form' }] });
    const again = withCell(leg, key('right', 1), { text: '', again: '8' });
    expect(readVisitForm(form(again), { born: BORN, today: TODAY })).toMatchObject({ refusals: [{ where: `0/${key('right', 1)}` }] });
  });

  it('keeps a single reading with its name', () => {
    const read = readVisitForm(
      form(leg, {
        readings: [
          { name: 'waist', text: '31 1/2', unit: 'in' },
          { name: 'hip', text: '', unit: 'in' },
        ],
      }),
      { born: BORN, today: TODAY },
    );
    expect(read.kind === 'read' && read.visit.readings).toMatchObject([{ name: 'waist', length: { nm: 800_100_000 } }]);
  });
});

describe('a stored visit as a form', () => {
  it('reads back as the same visit, whatever its ladders, texts, kept doubts and notes', () => {
    const stored = visitOn('2026-10-14', 'scar warm');
    const back = readVisitForm(formOfVisit(stored, UNITS), { born: BORN, today: TODAY });
    if (back.kind === 'refused') throw new Error(JSON.stringify(back.refusals));
    expect(back.visit).toEqual({
      ...stored,
      ladders: stored.ladders.map((ladder) => ({ intervalText: null, ...ladder })),
      readings: [],
      keptBody: null,
      occasion: null,
    });
  });

  it('has the shape that is let in from outside', () => {
    const typed = formOfVisit(visitOn('2026-10-14'), UNITS);
    expect(visitFormSchema.safeParse(JSON.parse(JSON.stringify(typed))).data).toEqual(typed);
    expect(visitFormSchema.safeParse({ ...typed, sheets: [{ ...typed.sheets[0], cells: { 'right/1e9': { text: '8' } } }] }).success).toBe(
      false,
    );
    expect(visitFormSchema.safeParse({ ...typed, note: 'x'.repeat(4001) }).success).toBe(false);
  });

  it('hands its set-up to the next visit and none of its figures', () => {
    const [first, second] = carriedSheets(visitOn('2026-10-14').ladders);
    expect(first).toMatchObject({
      limb: 'leg',
      sides: ['right'],
      zero: 'ankle-crease',
      direction: 'up',
      unit: 'in',
      interval: '1 1/2',
      fromZero: true,
      cells: {},
      marks: {},
    });
    expect(second).toMatchObject({ sides: ['left'], zero: 'gluteal-fold', direction: 'down', unit: 'cm', interval: '' });
  });
});
