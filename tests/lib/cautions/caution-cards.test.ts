import { describe, expect, it } from 'vitest';
import { CARD_ENDING } from '@/lib/cautions/caution-card';
import { CAUTION_CARDS, cardStates, cautionLine } from '@/lib/cautions/caution-cards';
import { GARMENT_FORMS, type GarmentSpec } from '@/lib/garment-forms/garment-catalogue';
import { LIMITS } from '@/lib/limits/limits';
import { DEFAULT_POLICY, type Policy } from '@/lib/limits/policy';
import type { PatientRecord } from '@/lib/record/patient-record';
import { addDays, calendarDay } from '@/lib/units/calendar-day';
import { recordOf, visitOf } from '../made-up-ladder';
import { pieceOf, promptsOf } from '../prompts/made-up-piece';
import { answerTo, NO_SUPPLY_DOUBT } from './made-up-answers';

const TODAY = calendarDay('2026-11-25');
const about = (record: PatientRecord, policy: Partial<Policy> = {}, today = TODAY) => ({
  record,
  policy: { ...DEFAULT_POLICY, ...policy },
  today,
});
const stateOf = (card: string, record: PatientRecord, policy: Partial<Policy> = {}, today = TODAY) =>
  cardStates(about(record, policy, today)).find((one) => one.card.id === card);
const standing = (card: string, record: PatientRecord, policy: Partial<Policy> = {}, today = TODAY) =>
  stateOf(card, record, policy, today)?.standing;
const spec = (form: string): GarmentSpec => ({ form, use: 'day', pressure: null, options: [] });
const visited = (...days: string[]) => days.map((day) => visitOf(day, []));

describe('every card', () => {
  /** Names of diseases that a card must not put into anyone's mouth; heart failure and cancer are known or not, so they are asked for by name. */
  const NAMES = /thrombos|\bDVT\b|\bclot|sepsis|cellulitis|ischaemi|tumour|embolism|apnoea/i;
  const everyCard = () => {
    const child = recordOf(visited('2026-11-24'), {
      born: calendarDay('2026-03-01'),
      pieces: [pieceOf('2026-10-01', { garment: spec('vest-sleeve-hood') }), pieceOf('2026-10-01', { garment: spec('glove') })],
    });
    return [...cardStates(about(child)), ...cardStates(about(recordOf([])))];
  };

  it('names what to do, ends with the protocol sentence, has source and limits, and diagnoses nothing', () => {
    expect(new Set(CAUTION_CARDS.map(({ id }) => id)).size).toBe(CAUTION_CARDS.length);
    for (const card of CAUTION_CARDS) {
      expect(card.source.length, card.id).toBeGreaterThan(20);
      expect(LIMITS[card.lasts].unit, card.id).toBe('days');
    }
    for (const { wording, card } of everyCard()) {
      expect(wording.endsWith(CARD_ENDING), card.id).toBe(true);
      expect(wording, card.id).not.toMatch(NAMES);
    }
  });

  it('asks one question that begins so that “yes” is the thing to worry about, never “and which”', () => {
    for (const { card } of everyCard()) {
      const asked = card.question(about(recordOf([])));
      expect(asked, card.id).toMatch(/^(Is|Are|Was|Were|Has|Have|Does|Do|Since)\b[^?]*\?$/);
      expect(asked, card.id).not.toMatch(/, and (which|what)/);
    }
  });

  it('says the clinic’s own limits, not the defaults', () => {
    expect(stateOf('sudden-gain', recordOf([]), { suddenGainKg: 1.5 })?.wording).toContain('more than 1.5 kg within 3 days');
  });
});

describe('when a card is asked again', () => {
  /** Each with its own due date: what is asked, and for how many days its “no” counts by default. */
  const LASTS = {
    pregnancy: 31,
    'new-medicine': 92,
    'new-operation': 92,
    'device-line-opening': 92,
    'dialysis-access': 365,
    'heart-failure': 365,
    'loss-of-feeling': 365,
    'active-cancer': 365,
    'can-take-off': 182,
  };

  it.each(Object.entries(LASTS))('a “no” to %s counts for its days and then lapses, by the clinic’s limit', (card, days) => {
    const day = calendarDay('2026-01-10');
    const record = recordOf([], { cautions: [answerTo(card, { day })] });
    expect(standing(card, record, {}, addDays(day, days - 1))).toBe('answered');
    expect(standing(card, record, {}, addDays(day, days))).toBe('lapsed');
    const own = CAUTION_CARDS.find(({ id }) => id === card)?.lasts ?? 'heartAskDays';
    expect(standing(card, record, { [own]: 5 }, addDays(day, 5))).toBe('lapsed');
  });

  it('what is never asked, or not known, is not a no', () => {
    expect(standing('pregnancy', recordOf([]))).toBe('not asked');
    const unknown = recordOf([], { cautions: [answerTo('pregnancy', { answer: 'not-known' })] });
    expect(cautionLine(cardStates(about(unknown)))).toMatch(/^Cautions: 0 of/);
    expect(
      standing('pregnancy', recordOf([], { cautions: [answerTo('pregnancy', { answer: 'not-known', day: calendarDay('2026-11-24') })] })),
    ).toBe('due');
  });

  it('a newer visit asks the cards of each visit again, not those of the history', () => {
    const cautions = ['hot-red-skin', 'pregnancy', 'heart-failure'].map((card) => answerTo(card, { day: calendarDay('2026-11-01') }));
    const after = recordOf(visited('2026-11-01', '2026-11-24'), { cautions });
    expect(['hot-red-skin', 'pregnancy', 'heart-failure'].map((card) => standing(card, after))).toEqual(['due', 'due', 'answered']);
  });

  it('an operation noted since, or a weight that changed by more than 5 %, lapses what was answered before', () => {
    const cautions = [answerTo('heart-failure', { day: calendarDay('2026-10-01') })];
    const weighed = (weight: string) => [visitOf('2026-09-30', [], { weight: '80' }), visitOf('2026-11-20', [], { weight })];
    expect(standing('heart-failure', recordOf(weighed('84'), { cautions }))).toBe('answered');
    expect(standing('heart-failure', recordOf(weighed('84.1'), { cautions }))).toBe('lapsed');
    const events = [{ day: calendarDay('2026-10-20'), kind: 'operation' as const, words: 'hip' }];
    expect(stateOf('heart-failure', recordOf(weighed('80'), { cautions, events }))?.because).toBe('operation on 20 Oct 2026');
  });

  it('other words of a card ask it again', () => {
    expect(standing('heart-failure', recordOf([], { cautions: [answerTo('heart-failure', { cardVersion: '1' })] }))).toBe('due');
  });

  it('present stands first and stays, also after newer visits and when the card would no longer be shown', () => {
    const present = answerTo('graft-near-skin', { answer: 'present', day: calendarDay('2024-01-01') });
    const arm = recordOf(visited('2026-11-01', '2026-11-24'), { affected: [{ limb: 'arm', side: 'left' }], cautions: [present] });
    const [first] = cardStates(about(arm));
    expect([first?.card.id, first?.standing, first?.toAsk]).toEqual(['graft-near-skin', 'yes', false]);
  });

  it('a line counts answers that count', () => {
    const states = cardStates(
      about(
        recordOf([], {
          cautions: [
            answerTo('heart-failure', { answer: 'present' }),
            answerTo('hot-red-skin'),
            answerTo('pregnancy', { day: calendarDay('2026-01-01') }),
          ],
        }),
      ),
    );
    expect(cautionLine(states)).toBe(`Cautions: 2 of ${states.length} answered, last on 25 Nov 2026; 1 lapsed; 1 answered “yes”.`);
  });
});

describe('blood supply cards', () => {
  it('are asked for each leg that is treated, not for an arm', () => {
    expect(standing('blood-supply-left', recordOf([]))).toBe('not asked');
    expect(standing('blood-supply-right', recordOf([]))).toBeUndefined();
    expect(standing('blood-supply-right', recordOf([], { pieces: [pieceOf('2026-10-01', { side: 'right' })] }))).toBe('not asked');
    expect(standing('blood-supply-left', recordOf([], { affected: [{ limb: 'arm', side: 'left' }] }))).toBeUndefined();
  });

  it('lapse with the check, not with the answer, and when the clinic’s limits change', () => {
    const answer = (abpiDay: string) => answerTo('blood-supply-left', { figures: { details: { ...NO_SUPPLY_DOUBT, abpiDay } } });
    const record = (abpiDay: string) => recordOf([], { cautions: [answer(abpiDay)] });
    expect(standing('blood-supply-left', record('2026-10-01'))).toBe('answered');
    expect(standing('blood-supply-left', record('2025-10-01'))).toBe('lapsed');
    expect(standing('blood-supply-left', record('2026-10-01'), { abpiLow: 1.1 })).toBe('lapsed');
  });

  it('ask no index of a child, and ask at each visit', () => {
    const child = recordOf([], { born: calendarDay('2018-01-01') });
    const state = stateOf('blood-supply-left', child);
    expect([state?.eachVisit, stateOf('blood-supply-left', recordOf([]))?.eachVisit]).toEqual([true, false]);
    expect(JSON.stringify([state?.wording, state?.card.boxes?.(about(child))])).not.toMatch(/brachial|ABPI|abpi"/);
  });
});

describe('growing children', () => {
  const child = (form: string | null, born = '2018-01-01') =>
    recordOf([], { born: calendarDay(born), pieces: [pieceOf('2026-10-01', form ? { garment: spec(form) } : {})] });
  const shown = (record: PatientRecord) =>
    cardStates(about(record))
      .map(({ card }) => card.id)
      .filter((id) =>
        ['airway-and-feeding', 'first-night', 'mouth-and-bite', 'chest-and-spine', 'growth-watch', 'infant-word'].includes(id),
      );

  it('are asked for breathing, feeding, first night and growth by what the garment presses', () => {
    expect(shown(child('glove'))).toEqual(['growth-watch']);
    expect(shown(child('vest-sleeve'))).toEqual(['airway-and-feeding', 'chest-and-spine']);
    expect(shown(child('vest-sleeve-hood'))).toEqual(['airway-and-feeding', 'first-night', 'mouth-and-bite', 'chest-and-spine']);
    expect(shown(child('arm-sleeve'))).toEqual([]);
    expect(shown(child('glove', '2008-11-25'))).toEqual([]);
    expect(shown(child('arm-sleeve', '2026-03-01'))).toEqual(['infant-word']);
  });

  it('are asked the same for a mask that is no piece here', () => {
    const mask = answerTo('garment-elsewhere', { answer: 'present', figures: { details: { part: 'face and neck' } } });
    expect(shown({ ...child('arm-sleeve'), cautions: [mask] })).toEqual(['airway-and-feeding', 'first-night', 'mouth-and-bite']);
  });

  it('growth questions keep their own time: mouth and bite half a year, chest a quarter', () => {
    const cautions = ['mouth-and-bite', 'chest-and-spine'].map((card) => answerTo(card, { day: calendarDay('2026-08-01') }));
    const record = { ...child('vest-sleeve-hood'), cautions };
    expect([standing('mouth-and-bite', record), standing('chest-and-spine', record)]).toEqual(['answered', 'lapsed']);
  });

  it('asks to look where the form of a piece is not on record', () => {
    expect(stateOf('growth-watch', child(null))?.reasons.join()).toContain('the form of piece 1 is not on record');
  });

  it('has a question for every part that a form may press', () => {
    for (const { id, watch } of GARMENT_FORMS) if (watch.length > 0) expect(shown(child(id)).length, id).toBeGreaterThan(0);
  });
});

describe('what the record says beside a question', () => {
  it('weight up since the last weighing is asked about whatever the gap, with figures and days', () => {
    const weights = (one: string, other: string) =>
      recordOf([visitOf('2026-08-01', [], { weight: one }), visitOf('2026-11-01', [], { weight: other })]);
    expect(stateOf('sudden-gain', weights('80', '83'))?.reasons[0]).toBe(
      'weight up by 3.0 kg from 1 Aug 2026 to 1 Nov 2026: ask whether it came within days',
    );
    expect(stateOf('sudden-gain', weights('80', '81'))?.reasons).toEqual(['asked at each visit and hand-over']);
  });

  it('weight lost by the clinic’s limit and a pause in a child’s growth are asked about with their figures and days', () => {
    const of = (record: PatientRecord) => stateOf('unexplained-loss', record)?.reasons;
    const weights = (one: string, other: string) => [
      visitOf('2026-09-01', [], { weight: one }),
      visitOf('2026-11-01', [], { weight: other }),
    ];
    expect(of(recordOf(weights('80', '76')))).toEqual(['weight 5 % less on 1 Nov 2026 than on 1 Sep 2026']);
    expect(of(recordOf(weights('80', '76.1')))).toBeUndefined();
    const heights = [visitOf('2026-05-01', [], { height: '120' }), visitOf('2026-11-01', [], { height: '120' })];
    expect(of(recordOf(heights, { born: calendarDay('2018-01-01') }))).toEqual(['no gain of height from 1 May 2026 to 1 Nov 2026']);
    expect(of(recordOf(heights))).toBeUndefined();
  });

  it('pregnancy is asked of those it may concern', () => {
    expect(standing('pregnancy', recordOf([], { sex: 'M' }))).toBeUndefined();
    expect(standing('pregnancy', recordOf([], { sex: 'X' }))).toBe('not asked');
    expect(standing('pregnancy', recordOf([], { born: calendarDay('1950-01-01') }))).toBeUndefined();
  });
});

describe('a card that stands as present', () => {
  it('raises one referral with its words and its step, and none otherwise', () => {
    const cautions = [answerTo('numb-or-cold', { answer: 'present', words: 'two toes, since Monday' }), answerTo('heart-failure')];
    const [prompt, ...others] = promptsOf('standing-caution', recordOf([], { cautions }), TODAY);
    expect(others).toEqual([]);
    expect([prompt?.action, prompt?.due]).toEqual(['refer', TODAY]);
    expect(prompt?.facts[0]).toMatch(/answered on 25 Nov 2026: two toes, since Monday\. Take the garment off/);
    expect(promptsOf('standing-caution', recordOf([], { cautions: [answerTo('heart-failure')] }), TODAY)).toEqual([]);
    expect(promptsOf('standing-caution', recordOf([]), TODAY)).toEqual([]);
  });
});
