import { describe, expect, it } from 'vitest';
import { readLifted, stopsOn, unaskedFor } from '@/lib/cautions/hold';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import type { CautionAnswer } from '@/lib/record/caution-answer';
import { calendarDay } from '@/lib/units/calendar-day';
import { recordOf, visitOf } from '../made-up-ladder';
import { answerTo, NO_SUPPLY_DOUBT } from './made-up-answers';

const TODAY = calendarDay('2026-11-25');
const LEFT_LEG = { limb: 'leg', side: 'left' } as const;
const yes = (card: string, rest: Partial<CautionAnswer> = {}) => answerTo(card, { answer: 'present', ...rest });
const titles = (cautions: readonly CautionAnswer[], piece: Parameters<typeof stopsOn>[1] = LEFT_LEG) =>
  stopsOn(cautions, piece).map(({ title }) => title);
const unasked = (cautions: readonly CautionAnswer[], pressureMmHg: number | null = 32, days = 1) =>
  unaskedFor(
    { record: recordOf([visitOf('2026-11-01', [])], { cautions }), policy: DEFAULT_POLICY, today: TODAY },
    { ...LEFT_LEG, pressureMmHg },
    days,
  );

describe('cautions that say stop', () => {
  it('hold a piece; those that only ask the prescriber, and a “no”, hold none', () => {
    expect(titles([yes('hot-red-skin'), yes('material-allergy'), answerTo('broken-skin')])).toEqual(['Redness, heat, fever']);
  });

  it('of one limb hold pieces for that limb only', () => {
    const arm = [yes('new-swelling-left-arm'), yes('blood-supply-right')];
    expect(titles(arm)).toEqual([]);
    expect(titles(arm, { limb: 'arm', side: 'left' })).toEqual(['New swelling of the left arm']);
    expect(titles(arm, { limb: 'leg', side: 'right' })).toEqual(['Blood supply of the right leg']);
  });

  it('given to a card that is asked no more still hold', () => {
    expect(titles([yes('arterial-supply')])).toEqual(['Blood supply to the leg (earlier card)']);
  });

  it('are open again when the card is answered anew', () => {
    const key = (day: string, words: string | null) => stopsOn([yes('broken-skin', { day: calendarDay(day), words })], LEFT_LEG)[0]?.key;
    expect(key('2026-11-24', 'heel')).not.toBe(key('2026-11-25', 'heel'));
    expect(key('2026-11-24', 'heel')).not.toBe(key('2026-11-24', 'heel and ankle'));
  });

  it('are lifted by reason, prescriber and their word, all three', () => {
    const stops = stopsOn([yes('broken-skin')], LEFT_LEG);
    const typed = { stop0: stops[0]?.key ?? '', reason0: 'wound closed', prescriber0: 'Dr Hale', word0: 'go on, by phone today' };
    expect(readLifted(typed, stops)).toEqual({
      lifted: [{ key: stops[0]?.key, reason: 'wound closed', prescriber: 'Dr Hale', word: 'go on, by phone today' }],
      errors: {},
    });
    for (const box of ['reason0', 'prescriber0', 'word0']) expect(readLifted({ ...typed, [box]: ' ' }, stops).errors).toHaveProperty(box);
    expect(readLifted({ ...typed, stop0: 'stop of yesterday' }, stops).errors).toHaveProperty('form');
  });
});

describe('cautions not answered for a piece', () => {
  it('are named: not asked is never a no', () => {
    expect(unasked([])).toContain('Pregnancy (not asked)');
    expect(unasked([answerTo('pregnancy')]).join()).not.toContain('Pregnancy');
    expect(unasked([answerTo('pregnancy', { answer: 'not-known' })])).toContain('Pregnancy (not known on 25 Nov 2026)');
  });

  it('are asked for this pressure: a supply checked for 20 mmHg does not count for 32', () => {
    const checked = answerTo('blood-supply-left', { figures: { details: { ...NO_SUPPLY_DOUBT, pressure: '20' } } });
    expect(unasked([checked], 20).join()).not.toContain('Blood supply');
    expect(unasked([checked], 32)).toContain('Blood supply of the left leg (checked for 20 mmHg, and this piece goes up to 32 mmHg)');
  });

  it('are asked for this hand-over: a “no” of a visit counts on its day and the next', () => {
    const on = (day: string) => unasked([answerTo('numb-or-cold', { day: calendarDay(day) })]).join();
    expect([on('2026-11-25'), on('2026-11-24')].join()).not.toContain('Numb');
    expect(on('2026-11-23')).toContain('Numb, tingling, blue, white or cold (last asked on 23 Nov 2026)');
  });
});
