import { describe, expect, it } from 'vitest';
import { recordMeasureDoubts } from '@/lib/doubts/record-measure-doubts';
import { readLaddersCsv } from '@/lib/exchange/read-ladders-csv';
import { readOrderForm } from '@/lib/forms/read-order-form';
import { readOwnForm, readOwnMeasure, withAsked } from '@/lib/forms/read-own-parts';
import { garmentForm } from '@/lib/garment-forms/garment-catalogue';
import { formOf } from '@/lib/garment-forms/own-form';
import { OWN_FORM } from '@/lib/garment-forms/own-form-schema';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { missingFigures } from '@/lib/orders/missing-figures';
import { figuresToSend, proposedOrder } from '@/lib/orders/order-steps';
import { knownOwnMeasures, type ListedMeasure, offeredMeasures } from '@/lib/parts/own-measure';
import { OWN_MEASURE, ownMeasureCell, ownMeasureOfCell } from '@/lib/parts/own-measure-schema';
import { measureSeries } from '@/lib/trend/measure-series';
import { calendarDay } from '@/lib/units/calendar-day';
import { measureRows, readMeasures, withMeasure } from '@/lib/visit-form/read-measures';
import type { VisitForm } from '@/lib/visit-form/visit-form';
import { file, row } from '../exchange/files';
import { cm, recordOf, visitOf } from '../made-up-ladder';
import { legOf } from '../prompts/made-up-piece';

const ID = 'own-0a1b2c3d4e5f';
const TYPED = {
  ...{ name: 'cheek girth', part: 'head', kind: 'girth', sides: 'middle', lowMm: '300', highMm: '800', tapeSdMm: '4' },
  ...{ definition: 'Level over both cheeks.', source: 'Our leaflet 3.' },
};
const read = readOwnMeasure(TYPED, [], ID);
const CHEEK: ListedMeasure = read.kind === 'read' ? read.value : (undefined as never);
const { asked: _asked, ...own } = CHEEK;
const taken = (value: number) => ({ part: 'head', side: 'middle', measure: ID, own, length: cm(value) }) as const;
const doubtsOf = (...values: number[]) => {
  const visits = values.map((value, month) =>
    visitOf(`2026-0${month + 1}-05`, [], { height: '164', weight: '60', measures: [taken(value)] }),
  );
  const found = recordMeasureDoubts(recordOf(visits, { born: calendarDay('1990-01-01') }), DEFAULT_POLICY);
  return visits.map(({ measures }) => (found.get(measures?.[0] as never) ?? []).map(({ kind, wouldFitMm }) => [kind, wouldFitMm]));
};

describe('a clinic’s own measure', () => {
  it.each([
    ['name', { name: '' }],
    ['name', { name: 'Head girth' }],
    ['name', { name: 'a|b' }],
    ['name', { name: 'x'.repeat(61) }],
    ['part', { part: 'leg' }],
    ['kind', { kind: 'volume' }],
    ['sides', { sides: '' }],
    ['lowMm', { lowMm: '0' }],
    ['highMm', { highMm: '300' }],
    ['highMm', { highMm: '9000' }],
    ['tapeSdMm', { tapeSdMm: '51' }],
    ['tapeSdMm', { lowMm: '300', highMm: '310', tapeSdMm: '4' }],
    ['definition', { definition: 'x'.repeat(301) }],
    ['source', { source: ' ' }],
  ])('is refused beside its box: %s %j', (box, other) => {
    const found = readOwnMeasure({ ...TYPED, ...other }, [], ID);
    expect(found.kind === 'refused' && Object.keys(found.errors)).toEqual([box]);
  });

  it('is refused a second time by its name, and the list is bounded', () => {
    expect(readOwnMeasure(TYPED, [CHEEK], ID)).toMatchObject({ errors: { name: 'There is one of that name.' } });
    const forty = Array.from({ length: 40 }, (_, n) => ({ ...CHEEK, name: `n${n}` }));
    expect(readOwnMeasure(TYPED, forty, ID)).toMatchObject({ errors: { name: 'A clinic adds 40 at most.' } });
  });

  it('stands on the sheet of its part, goes into the form with its definition, and only as the clinic defined it', () => {
    const rows = measureRows([{ part: 'head', side: 'middle' }], [own]);
    const cheek = rows.at(-1);
    if (!cheek) throw new Error('no row');
    expect(cheek.measure.name).toBe('cheek girth');
    const form = { parts: [], measures: [] } as unknown as VisitForm;
    const filled = { ...form, ...withMeasure(form, cheek, '51.5', 'cm') };
    const said: string[] = [];
    const refuse = (where: string, reason: string) => said.push(`${where}: ${reason}`);
    expect(readMeasures(filled, refuse, [CHEEK])).toEqual([taken(51.5)]);
    expect(said).toEqual([]);
    readMeasures(filled, refuse, [{ ...CHEEK, lowMm: 200 }]);
    readMeasures(filled, refuse, []);
    expect(said).toHaveLength(2);
    expect(said[0]).toMatch(/^measure\/middle\/own-0a1b2c3d4e5f: “cheek girth” is not a measure of this clinic/);
  });

  it('retired it is offered no more, but stays on a form that has it and in a record; one from elsewhere goes on', () => {
    const retired = withAsked([CHEEK], ID, false) ?? [];
    expect(withAsked([CHEEK], 'own-000000000000', false)).toBeUndefined();
    expect(offeredMeasures(retired, [])).toEqual([]);
    expect(offeredMeasures(retired, [own])).toEqual([own]);
    const visits = [visitOf('2026-01-05', [], { measures: [taken(51.5)] })];
    expect(knownOwnMeasures(retired, visits)).toEqual(retired);
    expect(knownOwnMeasures([], visits)).toEqual([CHEEK]);
    expect(measureSeries(recordOf(visits), DEFAULT_POLICY)[0]?.measure.name).toBe('cheek girth');
  });

  it('is asked about against its range, the last visit and a slip, and by nothing else', () => {
    expect(doubtsOf(51.5)).toEqual([[]]);
    expect(doubtsOf(79)).toEqual([[]]);
    expect(doubtsOf(80.5)).toEqual([[['own-range', undefined]]]);
    expect(doubtsOf(51.5, 51.9)).toEqual([[], []]);
    expect(doubtsOf(51.5, 61.5)).toEqual([[], [['tens-digit', 515]]]);
    expect(doubtsOf(5.15)).toEqual([[['times-ten', 515]]]);
  });

  it('in the ladders file its definition stands in the cell; a bare id is refused, and so is half a definition', () => {
    expect(ownMeasureOfCell(ownMeasureCell(own))).toEqual(own);
    const at = (landmark: string) =>
      readLaddersCsv(
        file(row({ ...{ zero: '', affected: '', distance: '', limb: 'head', side: 'middle', girth: '51.5' }, landmark })),
        calendarDay('2026-11-25'),
        'kept',
      );
    expect(at(ownMeasureCell(own))).toMatchObject({ records: [{ visits: [{ measures: [taken(51.5)] }] }] });
    expect(at(ID)).toMatchObject({ fault: { column: 'landmark', reason: expect.stringMatching(/its definition goes with it/) } });
    expect(at(`${ID} | cheek girth | head`)).toMatchObject({ fault: { reason: expect.stringMatching(/no definition/) } });
    expect(at(ownMeasureCell({ ...own, lowMm: 900 }))).toMatchObject({ kind: 'fault' });
    expect(OWN_MEASURE.safeParse({ ...own, id: 'own-1' }).success).toBe(false);
  });
});

describe('a clinic’s own form of garment', () => {
  const typed = { words: 'legging with cheek band', ladders: 'both legs', measures: `${ID} foot-length`, leadDays: '21', lifeDays: '120' };
  const formed = readOwnForm(typed, [], [CHEEK], 'own-ffffffffffff');
  const form = formed.kind === 'read' ? formed.value : (undefined as never);

  it.each([
    ['words', { words: 'Glove, fingers to wrist' }],
    ['words', { words: '' }],
    ['ladders', { ladders: 'none' }],
    ['measures', { measures: 'own-111111111111' }],
    ['leadDays', { leadDays: '401' }],
    ['lifeDays', { lifeDays: '0' }],
    ['lifeDays', { lifeDays: '1.5' }],
  ])('is refused beside its box: %s %j', (box, other) => {
    const found = readOwnForm({ ...typed, ...other }, [], [CHEEK], 'own-ffffffffffff');
    expect(found.kind === 'refused' && Object.keys(found.errors)).toEqual([box]);
  });

  it('without a ladder it is made to the measures of its part alone, at least one of them, and is ordered from them', () => {
    const hood = { ...typed, words: 'cheek band', ladders: 'head, no ladder', measures: `${ID} head-girth` };
    expect(readOwnForm({ ...hood, measures: 'foot-length' }, [], [CHEEK], 'own-eeeeeeeeeeee')).toMatchObject({
      errors: { measures: 'Without a ladder it is made to at least one measure of the head.' },
    });
    const made = readOwnForm(hood, [], [CHEEK], 'own-eeeeeeeeeeee');
    if (made.kind !== 'read') throw new Error(JSON.stringify(made.errors));
    const { asked: _, ...definition } = made.value;
    expect(OWN_FORM.safeParse(definition).success).toBe(true);
    expect(OWN_FORM.safeParse({ ...definition, measures: ['foot-length'] }).success).toBe(false);
    const cut = { key: 'v1', visitId: 'v1', day: calendarDay('2026-11-10'), limb: 'head', side: 'middle', unit: 'cm' } as const;
    const boxes = {
      ...{ cutFrom: 'v1', form: made.value.id, use: 'night', reduction: '10', convention: 'C(1-r)', quantity: '1', allowance: '' },
      ...{ lifeDays: '', leadDays: '', reasonCode: 'first piece' },
    };
    const ordered = readOrderForm(boxes, [{ ...cut, madeTo: 'head' }], [made.value]);
    if (ordered.kind !== 'read') throw new Error(JSON.stringify(ordered.errors));
    const { garment, covers } = ordered.choice;
    expect([covers, formOf(garment)?.madeTo, formOf(garment)?.zones]).toEqual(['measures', 'head', garmentForm('mask')?.zones]);
    const visit = visitOf('2026-11-10', [], { measures: [taken(51.5)] });
    expect(missingFigures(garment, { limb: 'head', side: 'middle' }, visit)).toEqual(['head girth']);
    const sent = figuresToSend({ ...proposedOrder(ordered.choice, 'v1', { noAnswer: 'x' }), order: 1 }, { ...visit, revision: 1 });
    expect([sent?.ladder, sent?.measures]).toEqual([undefined, [taken(51.5)]]);
    const onLeg = { ...cut, limb: 'leg', side: 'left' } as const;
    expect(readOrderForm(boxes, [onLeg], [made.value])).toMatchObject({
      errors: { form: expect.stringMatching(/named measures of the head alone/) },
    });
  });

  it('a measure that was retired is taken into no new form', () => {
    expect(readOwnForm(typed, [], [{ ...CHEEK, asked: false }], 'own-ffffffffffff')).toMatchObject({ kind: 'refused' });
  });

  it('is ordered like others: days left empty are its own, what is missing is named, its figures are frozen with their definitions', () => {
    const ladder = { key: 'v1', visitId: 'v1', day: calendarDay('2026-11-10'), limb: 'leg', side: 'left', unit: 'cm' } as const;
    const boxes = {
      ...{ cutFrom: 'v1', form: form.id, use: 'day', from: 'ankle-crease', to: 'gluteal-fold', reduction: '15', convention: 'C(1-r)' },
      ...{ quantity: '1', allowance: '', lifeDays: '', leadDays: '10', reasonCode: 'first piece' },
    };
    expect(readOrderForm(boxes, [ladder])).toMatchObject({ kind: 'refused' });
    const ordered = readOrderForm(boxes, [ladder], [form]);
    if (ordered.kind !== 'read') throw new Error(JSON.stringify(ordered.errors));
    const { garment, lifeDays, leadDays } = ordered.choice;
    expect([lifeDays, leadDays, garment.own?.id, formOf(garment)?.words]).toEqual([120, 10, form.id, 'legging with cheek band']);
    expect(formOf(garment)?.watch).toEqual(['face', 'neck', 'foot']);
    const visit = visitOf('2026-11-10', [legOf(), legOf(1, { side: 'right' })], { measures: [taken(51.5)] });
    expect(missingFigures(garment, { limb: 'leg', side: 'left' }, visit)).toEqual(['left foot length', 'right foot length']);
    const order = { ...proposedOrder(ordered.choice, 'v1', { noAnswer: 'x' }), order: 1 };
    const sent = figuresToSend(order, { ...visit, revision: 1 });
    expect(sent?.further?.map(({ side }) => side)).toEqual(['right']);
    expect(sent?.measures).toEqual([taken(51.5)]);
  });
});
