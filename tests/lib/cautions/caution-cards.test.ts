import { describe, expect, it } from 'vitest';
import { whyNotConfirmed } from '@/lib/cautions/arterial-supply';
import { CARD_ENDING } from '@/lib/cautions/caution-card';
import { CAUTION_CARDS, cardStates, cautionLine } from '@/lib/cautions/caution-cards';
import type { CautionAnswer } from '@/lib/record/caution-answer';
import { GARMENT_FORMS, type GarmentSpec } from '@/lib/record/garment';
import type { PatientRecord } from '@/lib/record/patient-record';
import { DEFAULT_POLICY, type Policy } from '@/lib/record/policy';
import { calendarDay } from '@/lib/units/calendar-day';
import { recordOf, visitOf } from '../made-up-ladder';
import { pieceOf, promptsOf } from '../prompts/made-up-piece';

const TODAY = calendarDay('2026-11-25');
const about = (record: PatientRecord, policy: Partial<Policy> = {}, today = TODAY) => ({
  record,
  policy: { ...DEFAULT_POLICY, ...policy },
  today,
});
const idsToAsk = (record: PatientRecord, policy: Partial<Policy> = {}) =>
  cardStates(about(record, policy)).flatMap(({ card, toAsk }) => (toAsk ? [card.id] : []));
const spec = (form: string): GarmentSpec => ({ form, use: 'day', pressure: null, options: [] });
const answerTo = (card: string, rest: Partial<CautionAnswer> = {}): CautionAnswer => ({
  card,
  cardVersion: '1',
  answer: 'absent',
  day: TODAY,
  words: null,
  figures: null,
  ...rest,
});
const visited = (...days: string[]) => days.map((day) => visitOf(day, []));

describe('every card', () => {
  /** Names of diseases that a card must not put into anyone's mouth; heart failure stands on record or not, so its name is asked for. */
  const NAMES = /thrombos|\bDVT\b|\bclot|sepsis|cellulitis|ischaemi|cancer|tumour|embolism|apnoea/i;

  it('names what to do, ends with the protocol sentence, has a source, and diagnoses nothing', () => {
    const child = recordOf(visited('2026-11-24'), {
      born: calendarDay('2018-01-01'),
      pieces: [pieceOf('2026-10-01', { garment: spec('glove') })],
    });
    expect(new Set(CAUTION_CARDS.map(({ id }) => id)).size).toBe(CAUTION_CARDS.length);
    for (const card of CAUTION_CARDS) expect(card.source.length, card.id).toBeGreaterThan(20);
    for (const { wording, card } of cardStates(about(child))) {
      expect(wording.endsWith(CARD_ENDING), card.id).toBe(true);
      expect(wording, card.id).not.toMatch(NAMES);
      expect(card.question(about(child)), card.id).toMatch(/\?$/);
    }
  });

  it('says the clinic’s own limits, not the defaults', () => {
    const own = cardStates(about(recordOf([]), { abpiLow: 0.6, suddenGainKg: 1.5 }));
    expect(own.find(({ card }) => card.id === 'arterial-supply')?.wording).toContain('below 0.6 or above 1.3');
    expect(own.find(({ card }) => card.id === 'sudden-gain')?.wording).toContain('more than 1.5 kg within 3 days');
  });
});

describe('blood supply to the leg', () => {
  const why = (abpi: number | undefined, day: string) =>
    whyNotConfirmed({ ...(abpi === undefined ? {} : { abpi }), abpiDay: calendarDay(day) }, DEFAULT_POLICY, TODAY);

  it('is confirmed by an index of 0.8 to 1.3 within a year: below or above it is a caution (Rabe 2020; guidance asks for one above 20 mmHg)', () => {
    expect(why(0.8, '2026-10-01')).toBeUndefined();
    expect(why(1.3, '2025-11-25')).toBeUndefined();
    expect(why(0.79, '2026-10-01')).toContain('below 0.8');
    expect(why(1.31, '2026-10-01')).toContain('above 1.3');
    expect(why(1.02, '2025-11-24')).toContain('366 days old');
    expect(why(undefined, '2026-10-01')).toContain('No ankle–brachial index');
    expect(whyNotConfirmed(null, DEFAULT_POLICY, TODAY)).toContain('No ankle–brachial index');
  });

  it('is asked for a leg, not for an arm, and again when the index has lapsed', () => {
    expect(idsToAsk(recordOf([]))).toContain('arterial-supply');
    expect(idsToAsk(recordOf([], { affected: [{ limb: 'arm', side: 'left' }] }))).not.toContain('arterial-supply');
    const figures = (day: string) => ({ abpi: 1.02, abpiDay: calendarDay(day) });
    const fresh = answerTo('arterial-supply', { figures: figures('2026-10-01') });
    const lapsed = answerTo('arterial-supply', { figures: figures('2025-10-01') });
    expect(idsToAsk(recordOf([], { cautions: [fresh] }))).not.toContain('arterial-supply');
    expect(idsToAsk(recordOf([], { cautions: [lapsed] }))).toContain('arterial-supply');
  });
});

describe('growth watch', () => {
  const shownFor = (born: string, form: string | null) => {
    const piece = pieceOf('2026-10-01', form ? { garment: spec(form) } : {});
    const states = cardStates(about(recordOf([], { born: calendarDay(born), pieces: [piece] })));
    return states.find(({ card }) => card.id === 'growth-watch');
  };

  it('is shown for a growing child with hand, foot or chest under a garment, and not for an arm sleeve or a grown person', () => {
    expect(shownFor('2018-01-01', 'glove')?.wording).toContain('arch of the hand and finger shape');
    expect(shownFor('2018-01-01', 'knee-high')?.wording).toContain('arch of the foot and toe shape');
    expect(shownFor('2018-01-01', 'vest-sleeve')?.wording).toContain('shape of the chest and breathing');
    expect(shownFor('2018-01-01', 'arm-sleeve')).toBeUndefined();
    expect(shownFor('2008-11-25', 'glove')).toBeUndefined();
    expect(shownFor('2008-11-26', 'glove')).toBeDefined();
  });

  it('asks to look where the form of a piece is not on record', () => {
    expect(shownFor('2018-01-01', null)?.reasons.join()).toContain('the form of piece 1 is not on record');
  });

  it('has words for every part that a form may press', () => {
    for (const { id, watch } of GARMENT_FORMS)
      if (watch.length > 0) expect(shownFor('2018-01-01', id)?.wording, id).not.toContain('undefined');
  });
});

describe('when cards are asked', () => {
  it('a card of each visit is asked again after a newer visit, one of the history is not, unless it was not known', () => {
    const answers = [
      answerTo('hot-red-skin', { day: calendarDay('2026-11-01') }),
      answerTo('heart-failure', { day: calendarDay('2026-11-01') }),
    ];
    const before = recordOf(visited('2026-11-01'), { cautions: answers });
    expect(idsToAsk(before)).not.toContain('hot-red-skin');
    const after = recordOf(visited('2026-11-01', '2026-11-24'), { cautions: answers });
    expect(idsToAsk(after)).toContain('hot-red-skin');
    expect(idsToAsk(after)).not.toContain('heart-failure');
    const unknown = answers.map((one) => ({ ...one, answer: 'not-known' as const }));
    expect(idsToAsk(recordOf(visited('2026-11-01', '2026-11-24'), { cautions: unknown }))).toContain('heart-failure');
  });

  it('a card of another version is asked again', () => {
    expect(idsToAsk(recordOf([], { cautions: [answerTo('heart-failure', { cardVersion: '0' })] }))).toContain('heart-failure');
  });

  it('present stands first and stays, also after newer visits and when the card would no longer be shown', () => {
    const present = answerTo('graft-near-skin', { answer: 'present', day: calendarDay('2026-01-01') });
    const arm = recordOf(visited('2026-11-01', '2026-11-24'), { affected: [{ limb: 'arm', side: 'left' }], cautions: [present] });
    const [first] = cardStates(about(arm));
    expect([first?.card.id, first?.present, first?.toAsk]).toEqual(['graft-near-skin', true, false]);
  });

  it('weight lost by the clinic’s limit and a pause in a child’s growth are asked about with their figures and days', () => {
    const of = (record: PatientRecord) => cardStates(about(record)).find(({ card }) => card.id === 'unexplained-loss')?.reasons;
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

  it('a line counts them', () => {
    const states = cardStates(
      about(recordOf([], { cautions: [answerTo('heart-failure', { answer: 'present' }), answerTo('hot-red-skin')] })),
    );
    expect(cautionLine(states)).toBe(`Cautions: 2 of ${states.length} asked, last on 25 Nov 2026; 1 to be referred.`);
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
