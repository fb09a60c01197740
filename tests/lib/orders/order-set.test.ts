import { describe, expect, it } from 'vitest';
import { GARMENT_FORMS } from '@/lib/garment-forms/garment-catalogue';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { missingFigures, notTaken } from '@/lib/orders/missing-figures';
import { orderQuestions } from '@/lib/orders/order-questions';
import { furtherLadders, measuresByPart, orderedInWords } from '@/lib/orders/order-set';
import { figuresToSend, proposedOrder } from '@/lib/orders/order-steps';
import { furtherRoom, previewPiece, proposedRoom } from '@/lib/orders/preview-piece';
import { measureOf } from '@/lib/parts/catalogue';
import { isTakenOn } from '@/lib/parts/measure';
import { garmentSet } from '@/lib/record/garment-needs';
import type { NamedMeasure } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { cm, ladderOf, recordOf, visitOf } from '../made-up-ladder';
import { legOf, pieceOf } from '../prompts/made-up-piece';

const DAY = '2026-11-10';
const taken = (measure: string, side: NamedMeasure['side'], value: number): NamedMeasure => ({
  part: measureOf(measure)?.part ?? 'hand',
  side,
  measure,
  length: cm(value),
});
const foot = (side: 'left' | 'right') => [
  taken('foot-length', side, 24.6),
  taken('ball-girth', side, 22.8),
  taken('heel-ankle-girth', side, 31),
];
const waist = [
  taken('waist-girth-navel', 'middle', 85.2),
  taken('hip-girth', 'middle', 101.9),
  taken('crotch-length-front', 'middle', 28),
  taken('crotch-length-back', 'middle', 34),
];
const tights = (both = true, measures = [...foot('left'), ...foot('right'), ...waist]) =>
  visitOf(DAY, both ? [legOf(), legOf(1, { side: 'right' })] : [legOf()], { height: '164', weight: '68', measures });
const garment = (form: string) => ({ form, use: 'day', pressure: null, options: [] }) as const;
const cut = (form: string) => ({ ...pieceOf(DAY), covers: { from: 'ankle-crease', to: 'gluteal-fold' }, garment: garment(form) }) as const;
const order = (form: string) => ({
  ...proposedOrder({ ...cut(form), quantity: 1, reasonCode: 'first piece', note: null, decided: null }, 'v1', { noAnswer: 'x' }),
  order: 1,
});

describe('the set of a garment', () => {
  it('names only measures of the catalogue, each on a side it is taken on, and lies on the limb of its form first', () => {
    for (const { id, limb, madeTo } of GARMENT_FORMS) {
      const side = limb === 'trunk' || limb === 'head' ? 'middle' : 'left';
      const set = garmentSet({ form: id }, { limb, side });
      expect(set.ladders[0], id).toEqual(madeTo ? undefined : { limb, side });
      if (madeTo) expect(set.measures[0]?.part, id).toBe(madeTo);
      for (const { side, measures } of set.measures)
        for (const one of measures) {
          const measure = measureOf(one);
          expect(measure && isTakenOn(measure, side), `${id}: ${one}`).toBe(true);
        }
    }
  });

  // Common practice: tights are made to both legs and feet, hip, waist and rise; a vest with two sleeves to both arms and the chest.
  it('has both limbs where the garment has both, and what is taken once stands once', () => {
    const set = garmentSet({ form: 'waist-high' }, { limb: 'leg', side: 'right' });
    expect(set.ladders).toEqual([
      { limb: 'leg', side: 'right' },
      { limb: 'leg', side: 'left' },
    ]);
    expect(set.measures.map(({ side, measures }) => `${side} ${measures[0]}`).filter((one) => /waist|foot-length/.test(one))).toEqual([
      'right foot-length',
      'middle waist-girth',
      'left foot-length',
    ]);
    expect(orderedInWords({ limb: 'leg', side: 'left', garment: garment('body-garment-sleeves') })).toBe('both legs and both arms');
    expect(orderedInWords({ limb: 'arm', side: 'left', garment: garment('sleeve-glove') })).toBe('left arm');
    expect(garmentSet({ form: 'body-garment-sleeves' }, { limb: 'leg', side: 'left' }).ladders).toHaveLength(4);
  });
});

describe('an order of a set', () => {
  it('is complete with either definition of the waist and the rise in two; else it says what is missing, ladders first', () => {
    const own = { limb: 'leg', side: 'left' } as const;
    expect(missingFigures({ form: 'waist-high' }, own, tights())).toEqual([]);
    expect(missingFigures({ form: 'waist-high' }, own, tights(false, [...foot('left'), ...waist.slice(1)]))).toEqual([
      'ladder of the right leg',
      'waist girth, halfway',
      'right foot length',
      'right ball girth',
      'right heel–ankle girth',
    ]);
    const rise = [...foot('left'), ...foot('right'), ...waist.slice(0, 2), taken('crotch-length', 'middle', 62)];
    expect(missingFigures({ form: 'waist-high' }, own, tights(true, rise))).toEqual([]);
  });

  it('names a rise once where none of it was taken, and the half that is missing where one was', () => {
    const own = { limb: 'leg', side: 'left' } as const;
    const feet = [...foot('left'), ...foot('right')];
    const without = (...measures: string[]) => [...feet, ...waist.filter(({ measure }) => !measures.includes(measure))];
    const missing = (...measures: string[]) => missingFigures({ form: 'waist-high' }, own, tights(true, without(...measures)));
    expect(missing('crotch-length-front', 'crotch-length-back')).toEqual(['crotch length']);
    expect(missing('crotch-length-front')).toEqual(['front rise']);
    expect(missing('crotch-length-back')).toEqual(['back rise']);
    expect(missing('waist-girth-navel')).toEqual(['waist girth, halfway']);
  });

  it('says on its sheet what was never taken, with the reason that was written, and nothing where all of it was', () => {
    const visit = (whole: boolean) => ({ ...(whole ? tights() : tights(false, waist)), revision: 1 });
    const sent = (whole: boolean) => figuresToSend(order('waist-high'), visit(whole));
    const answered = { key: 'figures-missing waist-high 2026-11-10 x', message: 'm', answer: 'feet ready-made', by: 'RA', at: 'then' };
    const other = { ...answered, key: 'ladder-old 2026-11-10', answer: 'seen' };
    const [all, some] = [sent(true), sent(false)];
    if (!all || !some) throw new Error('nothing to send');
    expect(notTaken(order('waist-high'), all)).toBeUndefined();
    expect(notTaken(order('waist-high'), some)?.why).toBeUndefined();
    const found = notTaken({ ...order('waist-high'), questions: [other, answered, other] }, some);
    expect(found?.missing[0]).toBe('ladder of the right leg');
    expect(found?.missing).toHaveLength(7);
    expect(found?.why?.answer).toBe('feet ready-made');
  });

  it('is asked about while something is missing, and by another key once it is another thing', () => {
    const ask = (visit: ReturnType<typeof tights>) =>
      orderQuestions(recordOf([visit]), cut('waist-high'), DEFAULT_POLICY, calendarDay('2026-11-20')).filter(({ key }) =>
        key.startsWith('figures-missing'),
      );
    expect(ask(tights())).toEqual([]);
    const [one] = ask(tights(false));
    expect(one?.message).toBe(
      'It covers more than was measured: 10 Nov 2026 has no ladder of the right leg. Say why it may leave without.',
    );
    expect(ask(tights(true, waist))[0]?.key).not.toBe(one?.key);
  });

  it('is asked about for what is open on every ladder and measure of it, and for none beside it', () => {
    const odd = legOf(1, { side: 'right', at: (place) => (place === 28 ? 9 : 0) });
    const measures = [...foot('left'), ...foot('right'), ...waist, taken('hand-girth', 'left', 81.7)];
    const slipped = measures.map((one) => (one.measure === 'hip-girth' ? { ...one, length: cm(11.9) } : one));
    const record = recordOf([visitOf(DAY, [legOf(), odd], { height: '164', weight: '68', measures: slipped })]);
    const ask = (form: string) =>
      orderQuestions(record, cut(form), DEFAULT_POLICY, calendarDay('2026-11-20'))
        .filter(({ key }) => key.startsWith('doubt'))
        .map(({ key }) => key);
    expect(ask('waist-high')).toContainEqual(expect.stringMatching(/^doubt right leg .*@280 /));
    expect(ask('waist-high')).toContainEqual(expect.stringMatching(/^doubt middle hip-girth /));
    expect(ask('waist-high').some((key) => key.includes('hand-girth'))).toBe(false);
    expect(ask('calf-sleeve')).toEqual([]);
  });

  it('freezes every ladder and measure of its set, and nothing of another part', () => {
    const hand = taken('hand-girth', 'left', 18.7);
    const visit = { ...tights(), revision: 3, measures: [...foot('left'), hand, ...foot('right'), ...waist] };
    const sent = figuresToSend(order('waist-high'), visit);
    expect(sent?.ladder?.side).toBe('left');
    expect(sent?.further?.map(({ side }) => side)).toEqual(['right']);
    expect(sent?.measures).toEqual([...foot('left'), ...foot('right'), ...waist]);
    expect(measuresByPart(sent?.measures ?? []).map(({ words, taken: all }) => `${words} ${all.length}`)).toEqual([
      'left foot 3',
      'right foot 3',
      'trunk 4',
    ]);
    expect(Object.keys(figuresToSend(order('calf-sleeve'), visit) ?? {})).not.toContain('further');
    expect(
      furtherLadders(order('body-garment-sleeves'), { ladders: [legOf(), ladderOf({ limb: 'arm', girths: [[4, 16]] })] }),
    ).toHaveLength(1);
  });

  it('has room of its own proposed for each further ladder: a child’s other leg as much as its own', () => {
    const child = { born: calendarDay('2018-05-01'), affected: [{ limb: 'leg', side: 'left' }] } as const;
    const record = recordOf([visitOf(DAY, tights().ladders, { height: '128', weight: '26' })], child);
    const [other, ...rest] = furtherRoom(record, cut('waist-high'), DEFAULT_POLICY, calendarDay('2026-11-20'));
    expect(rest).toEqual([]);
    expect([other?.limb, other?.side]).toEqual(['leg', 'right']);
    const own = proposedRoom(previewPiece(record, cut('waist-high'), DEFAULT_POLICY, calendarDay('2026-11-20')).piece);
    expect('highMm' in own && own.highMm).toBeGreaterThan(0);
    expect(other?.proposed).toEqual(own);
    expect(furtherRoom(record, cut('calf-sleeve'), DEFAULT_POLICY, calendarDay('2026-11-20'))).toEqual([]);
  });
});
