import { describe, expect, it } from 'vitest';
import { daysWithout } from '@/lib/analysis/service-cases';
import { FILED_PIECE_JSON, ORDER_JSON } from '@/lib/exchange/filed-garments';
import type { CutLadder } from '@/lib/forms/read-cut';
import { orderFormOf, readOrderForm } from '@/lib/forms/read-order-form';
import { zonesOf } from '@/lib/forms/read-piece-step';
import { measureFits } from '@/lib/garments/measure-fit';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { lastOfPlace } from '@/lib/orders/last-of-place';
import { orderQuestions } from '@/lib/orders/order-questions';
import { orderedInWords, sentLadders } from '@/lib/orders/order-set';
import { figuresToSend, piecesOfOrder, proposedOrder } from '@/lib/orders/order-steps';
import { isNoAnswer } from '@/lib/outcome';
import { measureOf } from '@/lib/parts/catalogue';
import { coverInWords } from '@/lib/prompts/show-figures';
import type { NamedMeasure, Piece } from '@/lib/record/patient-record';
import { patientSchedule } from '@/lib/schedule/patient-schedule';
import { letterDraft } from '@/lib/summary/letter/letter-draft';
import { letterFacts } from '@/lib/summary/letter/letter-facts';
import { calendarDay } from '@/lib/units/calendar-day';
import { cm, recordOf, visitOf } from '../made-up-ladder';
import { analysed, legOf, pieceOf, promptsOf } from '../prompts/made-up-piece';

const DAY = '2026-11-10';
const taken = (measure: string, value: number, side: NamedMeasure['side'] = 'middle'): NamedMeasure => ({
  part: measureOf(measure)?.part ?? 'head',
  side,
  measure,
  length: cm(value),
});
const head = (girth = 50.5) => [taken('head-girth', girth), taken('chin-arc', 27), taken('face-length', 9.8)];
const visit = (day: string, measures: readonly NamedMeasure[]) => visitOf(day, [], { measures });
const girl = (...visits: ReturnType<typeof visit>[]) => recordOf(visits, { born: calendarDay('2022-05-01'), sex: 'F', affected: [] });
const choice = (part: 'head' | 'hand', limb: CutLadder['limb'], side: CutLadder['side']): CutLadder => ({
  ...{ key: part, visitId: 'v1', day: calendarDay(DAY), unit: 'cm', limb, side, madeTo: part },
});
const ladder: CutLadder = { key: 'ladder', visitId: 'v1', day: calendarDay(DAY), unit: 'cm', limb: 'arm', side: 'left' };
const typed = (form: string, cutFrom: string, rest = {}) => ({
  ...{ cutFrom, form, reduction: '10', convention: 'C(1-r)', use: 'day', quantity: '2', lifeDays: '90', leadDays: '14' },
  ...{ reasonCode: 'first piece', ...rest },
});
const read = (form: string, cutFrom: string) =>
  readOrderForm(typed(form, cutFrom), [ladder, choice('hand', 'arm', 'left'), choice('head', 'head', 'middle')]);
const mask = (rest: Partial<Piece> = {}) =>
  pieceOf(DAY, {
    ...{ limb: 'head', side: 'middle', covers: 'measures', reductionPct: 10, firstWorn: calendarDay('2026-11-20') },
    garment: { form: 'mask', use: 'day', pressure: null, options: [] },
    ...rest,
  });
const order = () => {
  const chosen = read('mask', 'head');
  if (chosen.kind !== 'read') throw new Error(JSON.stringify(chosen.errors));
  return { ...proposedOrder(chosen.choice, 'v1', { noAnswer: 'no ladder' }), order: 1 };
};

describe('a garment made to named measures alone', () => {
  it('is read from the form without a cover; a form and figures that do not belong together are refused there', () => {
    expect(order()).toMatchObject({ limb: 'head', side: 'middle', covers: 'measures', cutFrom: DAY });
    expect(orderFormOf({ ...order() }, 'head')).toMatchObject({ from: '', to: '', form: 'mask', cutFrom: 'head' });
    const refusal = (form: string, cutFrom: string) => {
      const answer = read(form, cutFrom);
      return answer.kind === 'refused' ? answer.errors.form : undefined;
    };
    expect(refusal('mask', 'ladder')).toContain('named measures of the head alone');
    expect(refusal('mask', 'hand')).toContain('named measures of the head alone');
    expect(refusal('arm-sleeve', 'hand')).toContain('made to a ladder');
    expect(refusal('hand-glove', 'hand')).toBeUndefined();
  });

  it('freezes its measures and no ladder, and makes pieces of its place', () => {
    const sent = figuresToSend(order(), { ...visitOf(DAY, [legOf()], { measures: [...head(), taken('hip-girth', 80)] }), revision: 2 });
    expect(sent && sentLadders(sent)).toEqual([]);
    expect(sent?.measures).toEqual(head());
    expect(figuresToSend(order(), { ...visitOf(DAY, [legOf()], { measures: [] }), revision: 2 })).toBeUndefined();
    expect(orderedInWords(order())).toBe('head');
    const [first, second] = piecesOfOrder({ ...order(), ordered: calendarDay(DAY) }, ['4']);
    expect([first?.piece, first?.covers, second?.limb]).toEqual(['5', 'measures', 'head']);
    expect(coverInWords('measures')).toBe('its named measures');
    expect(zonesOf(mask())).toContain('chin');
  });

  it('is asked about: what is missing, figures that are old or measured again; of a ladder nothing', () => {
    const ask = (today: string, ...visits: ReturnType<typeof visit>[]) =>
      orderQuestions(girl(...visits), order(), DEFAULT_POLICY, calendarDay(today));
    expect(ask('2026-11-12', visit(DAY, head()))).toEqual([]);
    const [missing] = ask('2026-11-12', visit(DAY, head().slice(0, 1)));
    expect(missing?.message).toContain('has no chin arc; no face length');
    const again = ask('2027-01-12', visit(DAY, head()), visit('2026-12-01', head(50.7)));
    expect(again.map(({ key }) => key.split(' ')[0])).toEqual(['ladder-old', 'newer-measures']);
    expect(again.map(({ message }) => message).join(' ')).toContain('The head was measured again on');
    expect(ask('2026-11-12', visit('2026-12-01', head())).map(({ key }) => key)).toEqual(['measures-missing']);
  });

  it('has a fit by its measures, and where a ladder is asked for it says why there is none', () => {
    // Ratio of tapes by hand: 53.5 of 50.5 cm through 10 % (relaxed 45.45): (53.5 / 45.45 − 1) / (50.5 / 45.45 − 1) × 50.5 / 53.5 = 1.5047.
    const record = { ...girl(visit(DAY, head()), visit('2026-11-24', head(53.5))), pieces: [mask()] };
    const [girth] = measureFits(mask(), record, DEFAULT_POLICY);
    expect(girth?.tightness?.value).toBeCloseTo(1.5047, 3);
    const { pieces } = analysed(record, '2026-11-25');
    expect(pieces[0]?.fit).toEqual({ noAnswer: expect.stringContaining('named measures alone') });
    expect(pieces[0] && isNoAnswer(pieces[0].outgrow)).toBe(true);
    const raised = promptsOf('part-outgrown', record, '2026-11-25')[0];
    expect(raised).toMatchObject({ action: 'refit', about: { limb: { limb: 'head', side: 'middle' }, piece: '1' } });
    expect(raised?.title).toContain('head piece 1');
    expect(raised?.title).toContain('the head girth has left it');
  });

  it('has its dates: first fit, end of life, order by; no day of a limb without a piece is counted from it', () => {
    const record = { ...girl(visit(DAY, head())), pieces: [mask({ firstFit: null })] };
    const dates = patientSchedule(analysed(record, '2026-11-25'));
    // Worn from 20 November, 90 days: 18 February.
    expect(dates.find(({ kind }) => kind === 'end-of-life')?.computed).toBe('2027-02-18');
    expect(dates.map(({ kind }) => kind)).toEqual(expect.arrayContaining(['first-fit', 'order']));
    expect(daysWithout(record, calendarDay('2027-06-01'))).toEqual([]);
  });

  it('is compared with its like, never with a sleeve of the same arm', () => {
    const glove = { covers: 'measures', garment: { form: 'hand-glove', use: 'day', pressure: null, options: [] } } as const;
    const arm = pieceOf(DAY, { piece: '1', limb: 'arm', side: 'left', covers: { from: 'wrist-crease', to: 'axillary-fold' } });
    const own = pieceOf(DAY, { piece: '2', limb: 'arm', side: 'left', ...glove });
    const of = { limb: 'arm', side: 'left', cutFrom: calendarDay('2026-11-20'), ...glove } as const;
    expect(lastOfPlace([own, arm], of, null)?.piece).toBe('2');
    expect(lastOfPlace([arm], of, null)).toBeUndefined();
  });

  it('has a letter in words, with its measures then and now', () => {
    const record = { ...girl(visit(DAY, head()), visit('2026-11-24', head(53.5))), pieces: [mask()] };
    const analysis = analysed(record, '2026-11-25');
    const facts = letterFacts({ analysis, name: null, piece: mask(), orders: [], coverage: null });
    expect([facts.cutVisit?.day, facts.newVisit?.day, facts.evidence, facts.excess]).toEqual([DAY, '2026-11-24', null, null]);
    expect(facts.measures.map(({ measure }) => measure.id)).toContain('head-girth');
    expect(letterDraft(facts).replaces).toContain('Piece 1, head, its named measures');
  });

  it('in a file stands in the middle where it is of trunk or head, with figures without a ladder', () => {
    const { cutFromVisitId: _visit, ...content } = order();
    expect(ORDER_JSON.safeParse(content).success).toBe(true);
    for (const wrong of [{ side: 'left' }, { covers: { from: 'knee', to: 'ankle-crease' } }, { limb: 'arm' }])
      expect(ORDER_JSON.safeParse({ ...content, ...wrong }).success, JSON.stringify(wrong)).toBe(false);
    const sent = figuresToSend(order(), { ...visit(DAY, head()), revision: 1 });
    expect(ORDER_JSON.safeParse({ ...content, sent }).success).toBe(true);
    expect(ORDER_JSON.safeParse({ ...content, covers: 'measures', sent: { ...sent, ladder: legOf() } }).success).toBe(false);
    expect(FILED_PIECE_JSON.safeParse({ ...mask(), side: 'right' }).success).toBe(false);
  });
});
