import { describe, expect, it } from 'vitest';
import { cardStates } from '@/lib/cautions/caution-cards';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { missingFigures } from '@/lib/orders/missing-figures';
import { orderQuestions } from '@/lib/orders/order-questions';
import { orderStage, piecesOfOrder, proposedOrder, sentOrder, standingCheck, unansweredQuestions } from '@/lib/orders/order-steps';
import type { SingleReading } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { answerTo, NO_SUPPLY_DOUBT } from '../cautions/made-up-answers';
import { recordOf, visitOf } from '../made-up-ladder';
import { legOf, pieceOf } from '../prompts/made-up-piece';

const cut = (cutFrom: string) => pieceOf(cutFrom);
const ask = (record: ReturnType<typeof recordOf>, cutFrom: string, today: string) =>
  orderQuestions(record, cut(cutFrom), DEFAULT_POLICY, calendarDay(today)).map((one) => one.key.split(' ')[0]);

describe('an order is questioned', () => {
  const body = { height: '168', weight: '70' };

  it('not at all from a fresh ladder without doubts', () => {
    expect(ask(recordOf([visitOf('2026-11-10', [legOf()], body)]), '2026-11-10', '2026-11-25')).toEqual([]);
  });

  it('for the age of its ladder from the day after the clinic’s limit', () => {
    const record = recordOf([visitOf('2026-10-01', [legOf()], body)]);
    expect(ask(record, '2026-10-01', '2026-11-12')).toEqual([]);
    expect(ask(record, '2026-10-01', '2026-11-13')).toEqual(['ladder-old']);
  });

  it('when the limb was taped again since', () => {
    const record = recordOf([visitOf('2026-10-20', [legOf()], body), visitOf('2026-11-20', [legOf()], body)]);
    expect(ask(record, '2026-10-20', '2026-11-25')).toEqual(['newer-ladder']);
  });

  it('for a doubt that was never settled, and not for one that was kept', () => {
    const odd = legOf(1, { at: (place) => (place === 28 ? 9 : 0) });
    const open = recordOf([visitOf('2026-11-10', [odd], body)]);
    expect(ask(open, '2026-11-10', '2026-11-25')).toContain('doubt');
  });

  it('when a grown person’s weight has gone up by the clinic’s limit since the ladder', () => {
    // Common practice: 5 % of weight asks for the tape. 70 kg to 73.5 kg is 5 %.
    const heavier = (weight: string) =>
      recordOf([visitOf('2026-10-20', [legOf()], body), visitOf('2026-11-20', [], { height: '168', weight })]);
    expect(ask(heavier('73.4'), '2026-10-20', '2026-11-25')).toEqual([]);
    expect(ask(heavier('73.5'), '2026-10-20', '2026-11-25')).toEqual(['weight-since-cut']);
  });

  it('when no caution was ever asked, where cautions are recorded', () => {
    const record = recordOf([visitOf('2026-11-10', [legOf()], body)]);
    expect(ask({ ...record, cautions: [] }, '2026-11-10', '2026-11-25')).toEqual(['cautions-unasked']);
    expect(ask(record, '2026-11-10', '2026-11-25')).toEqual([]);
  });

  it('while a caution stands, until it is answered anew', () => {
    const answered = (answer: 'present' | 'absent') => ({
      card: 'infection',
      cardVersion: '1',
      answer,
      day: calendarDay('2026-11-20'),
      words: 'red and hot at the calf',
      figures: null,
    });
    const record = recordOf([visitOf('2026-11-10', [legOf()], body)]);
    expect(ask({ ...record, cautions: [answered('present')] }, '2026-11-10', '2026-11-25')).toEqual(['cautions-unasked', 'caution']);
    expect(ask({ ...record, cautions: [answered('absent')] }, '2026-11-10', '2026-11-25')).toEqual(['cautions-unasked']);
  });

  it('for the cautions not answered for this pressure and side, and for none once all are', () => {
    const day = calendarDay('2026-11-25');
    const record = recordOf([visitOf('2026-11-10', [legOf()], body)]);
    const all = cardStates({ record: { ...record, cautions: [] }, policy: DEFAULT_POLICY, today: day }).map(({ card }) =>
      answerTo(card.id, card.id.startsWith('blood-supply') ? { figures: { details: NO_SUPPLY_DOUBT } } : {}),
    );
    const asked = (highMmHg: number, cautions = all) => {
      const garment = {
        form: 'calf-sleeve',
        use: 'day',
        options: [],
        pressure: { scheme: 'clinic', name: 'II', lowMmHg: 15, highMmHg },
      } as const;
      return orderQuestions({ ...record, cautions }, { ...cut('2026-11-10'), garment }, DEFAULT_POLICY, day);
    };
    expect(asked(32)).toEqual([]);
    expect(asked(36)[0]?.message).toContain('checked for 32 mmHg, and this piece goes up to 36 mmHg');
    const [one] = asked(
      32,
      all.filter(({ card }) => card !== 'pregnancy'),
    );
    expect(one?.message).toMatch(/^Not answered for this order: Pregnancy \(not asked\)\./);
  });

  it('and held by a caution that says stop, which is told apart from a question', () => {
    const record = recordOf([visitOf('2026-11-10', [legOf()], body)]);
    const yes = (card: string) => answerTo(card, { answer: 'present' });
    const asked = orderQuestions(
      { ...record, cautions: [yes('broken-skin'), yes('material-allergy'), yes('blood-supply-right')] },
      cut('2026-11-10'),
      DEFAULT_POLICY,
      calendarDay('2026-11-25'),
    );
    expect(asked.filter(({ stop }) => stop).map(({ message }) => message.split(':')[0])).toEqual(['Fragile, open or leaking skin']);
    expect(asked.filter(({ stop, key }) => !stop && key.startsWith('caution ')).map(({ message }) => message.split(',')[0])).toEqual([
      'Allergy to a material',
      'Blood supply of the right leg',
    ]);
  });

  it('when the limb is not among those treated', () => {
    // Common practice of a sheet for the maker: side and limb are read back before it leaves.
    const record = recordOf([visitOf('2026-11-10', [legOf()], body)]);
    const { limb, side } = { limb: 'leg', side: 'left' } as const;
    const other = side === 'left' ? 'right' : 'left';
    expect(ask({ ...record, affected: [{ limb, side: other }] }, '2026-11-10', '2026-11-25')).toEqual(['side']);
    expect(ask({ ...record, affected: [{ limb, side }] }, '2026-11-10', '2026-11-25')).toEqual([]);
    expect(ask({ ...record, affected: [] }, '2026-11-10', '2026-11-25')).toEqual([]);
  });

  it('when its cover does not lie on the ladder', () => {
    const record = recordOf([visitOf('2026-11-10', [{ ...legOf(), landmarks: [] }], body)]);
    expect(ask(record, '2026-11-10', '2026-11-25')).toContain('cover');
  });

  it('until each is answered; another ladder asks anew', () => {
    const record = recordOf([visitOf('2026-10-01', [legOf()], body)]);
    const asked = orderQuestions(record, cut('2026-10-01'), DEFAULT_POLICY, calendarDay('2026-11-25'));
    const answered = asked.map(({ key, message }) => ({ key, message, answer: 'limb stable, seen today', by: 'RA', at: '2026-11-25' }));
    expect(unansweredQuestions(asked, { questions: answered })).toEqual([]);
    const newer = orderQuestions(
      recordOf([visitOf('2026-10-02', [legOf()], body)]),
      cut('2026-10-02'),
      DEFAULT_POLICY,
      calendarDay('2026-11-25'),
    );
    expect(unansweredQuestions(newer, { questions: answered })).toHaveLength(1);
  });
});

describe('an order that is sent', () => {
  const visit = visitOf('2026-11-10', [legOf()]);
  const garment = { form: 'knee-high', use: 'day', pressure: null, options: [] } as const;
  const choice = { ...cut('2026-11-10'), garment, quantity: 2, reasonCode: 'worn out', note: null, decided: null } as const;
  const order = { ...proposedOrder(choice, 'v1', { noAnswer: 'No height.' }), order: 3 };
  const sent = { day: visit.day, visitRevision: 1, measurer: 'RA', ladder: legOf(), readings: [], height: null, weight: null };
  const left = sentOrder(order, { sent, ordered: calendarDay('2026-11-12'), expected: calendarDay('2026-11-26'), answers: [] });

  it('says that nobody checked it when nobody did', () => {
    expect(left).toMatchObject({ state: 'ordered', checked: 'unchecked', expected: '2026-11-26' });
  });

  it('is checked only for the state of the visit that was read: after a correction nobody has checked it', () => {
    const checked = { by: 'kd', name: 'K. Doan', at: '2026-11-11T10:00:00Z', visitRevision: 1 };
    const send = (visitRevision: number) =>
      sentOrder(
        { ...order, checked },
        { sent: { ...sent, visitRevision }, ordered: calendarDay('2026-11-12'), expected: calendarDay('2026-11-26'), answers: [] },
      ).checked;
    expect(send(1)).toEqual(checked);
    expect(send(2)).toBe('unchecked');
    expect(standingCheck({ checked }, undefined)).toBeNull();
    expect(standingCheck({ checked: 'unchecked' }, sent)).toBeNull();
  });

  it('is delivered when no piece is awaited; one that went back is awaited again', () => {
    const pieces = piecesOfOrder(left, []).map((piece) => ({ ...piece, orderId: 'o', delivered: calendarDay('2026-11-26') }));
    const [first, ...rest] = pieces as [(typeof pieces)[number]];
    expect(orderStage(left, pieces)).toBe('delivered');
    const fit = {
      day: calendarDay('2026-11-27'),
      zones: [],
      outcome: 'remake',
      reason: 'girth wrong',
      words: null,
      taught: false,
    } as const;
    const back = { ...first, delivered: null, firstWorn: calendarDay('2026-11-26'), fit };
    expect(orderStage(left, [back, ...rest])).toBe('partly delivered');
    expect(orderStage(left, [{ ...back, retired: calendarDay('2026-11-28') }, ...rest])).toBe('delivered');
  });

  it('makes as many pieces as were ordered, each with a name of its own after the last', () => {
    expect(piecesOfOrder(left, ['1', '2', 'old left one']).map((one) => one.piece)).toEqual(['3', '4']);
  });
});

describe('figures beyond the ladder', () => {
  const body = { height: '168', weight: '70' };
  const toe = { name: 'ball girth', length: { text: '23', unit: 'cm', nm: 230_000_000 } } as unknown as SingleReading;

  it('are asked for by the form: a foot piece without a foot, a glove without a hand, a waist piece without a waist', () => {
    const missing = (form: string, readings: readonly SingleReading[] = []) =>
      missingFigures({ form: form }, { limb: 'leg', side: 'left' }, { ladders: [legOf()], measures: null, readings });
    expect(missing('knee-high')).toEqual(['left foot length', 'left ball girth', 'left heel–ankle girth']);
    expect(missing('knee-high', [toe])).toEqual([]);
    expect(missing('thigh-high-waist', [toe])).toEqual(['waist girth, halfway', 'hip girth']);
    expect(missing('calf-sleeve')).toEqual([]);
  });

  it('hold an order until somebody says why it may leave without them', () => {
    const record = recordOf([visitOf('2026-11-10', [legOf()], body)]);
    const garment = { form: 'knee-high', use: 'day', pressure: null, options: [] } as const;
    const asked = orderQuestions(record, { ...cut('2026-11-10'), garment }, DEFAULT_POLICY, calendarDay('2026-11-25'));
    expect(asked.map(({ key }) => key)).toEqual([
      'figures-missing knee-high 2026-11-10 left foot length; left ball girth; left heel–ankle girth',
    ]);
  });
});
