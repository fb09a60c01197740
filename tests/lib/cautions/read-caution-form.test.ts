import { describe, expect, it } from 'vitest';
import { cardStates } from '@/lib/cautions/caution-cards';
import { readCautionForm } from '@/lib/cautions/read-caution-form';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import type { CautionAnswer } from '@/lib/record/caution-answer';
import { calendarDay } from '@/lib/units/calendar-day';
import { recordOf } from '../made-up-ladder';
import { answerTo, NO_SUPPLY_DOUBT } from './made-up-answers';

const TODAY = calendarDay('2026-11-25');
const PRESENT = answerTo('heart-failure', { answer: 'present' });

function read(typed: Readonly<Record<string, string>>, cautions: readonly CautionAnswer[] = []) {
  const about = { record: recordOf([], { cautions }), policy: DEFAULT_POLICY, today: TODAY };
  return readCautionForm(typed, cardStates(about), about);
}
const boxes = (card: string, typed: Readonly<Record<string, string>>) =>
  Object.fromEntries(Object.entries(typed).map(([box, text]) => [`${card}/${box}`, text]));

describe('a form of caution cards', () => {
  it('keeps the answers given, each with its wording, version, boxes and limits; cards without an answer are left out', () => {
    const swelling = { onset: 'Sunday', pain: 'yes', warmth: 'no', words: ' below the knee ' };
    expect(read({ 'new-swelling-left-leg': 'present', ...boxes('new-swelling-left-leg', swelling), 'broken-skin': '' })).toEqual({
      kind: 'read',
      answers: [
        {
          card: 'new-swelling-left-leg',
          cardVersion: '1',
          answer: 'present',
          wording: expect.stringMatching(/newly swollen.*Same-day medical assessment.*refer to the prescriber\.$/),
          words: 'below the knee',
          figures: {
            details: { onset: 'Sunday', pain: 'yes', warmth: 'no' },
            limits: { calfGainMm: 30, thighGainMm: 40, calfGainDays: 14, visitAnswerDays: 92 },
          },
        },
      ],
    });
  });

  it('a “no” beside a sign answered “yes” is refused', () => {
    const signs = boxes('new-swelling-left-leg', { warmth: 'yes' });
    expect(read({ 'new-swelling-left-leg': 'absent', ...signs })).toMatchObject({
      errors: { 'new-swelling-left-leg': 'New warmth is a “yes” here.' },
    });
    expect(read({ 'new-swelling-left-leg': 'absent', ...boxes('new-swelling-left-leg', { warmth: 'no' }) })).toHaveProperty('answers');
  });

  it('a card that stands as present is not cleared without words', () => {
    expect(read({ 'heart-failure': 'absent' }, [PRESENT])).toMatchObject({
      errors: { 'heart-failure/words': expect.stringContaining('what has changed') },
    });
    expect(read({ 'heart-failure': 'not-known', 'heart-failure/words': '  ' }, [PRESENT])).toHaveProperty('errors');
    expect(read({ 'heart-failure': 'absent', 'heart-failure/words': 'cardiology letter of 20 Nov' }, [PRESENT])).toHaveProperty('answers');
    expect(read({ 'heart-failure': 'present' }, [PRESENT])).toHaveProperty('answers');
  });

  it('blood supply is not in doubt only by what the clinic’s limits let pass for the pressure planned', () => {
    const supply = (typed: Readonly<Record<string, string>>, answer = 'absent') =>
      read({ 'blood-supply-left': answer, ...boxes('blood-supply-left', { ...NO_SUPPLY_DOUBT, ...typed }) });
    expect(supply({ abpi: '0,95' })).toMatchObject({
      answers: [{ figures: { abpi: 0.95, abpiDay: '2026-10-01', details: { abpi: '0,95', pressure: '32' }, limits: { abpiLow: 0.8 } } }],
    });
    expect(supply({ abpi: '0.72' })).toMatchObject({ errors: { 'blood-supply-left': expect.stringContaining('below 0.8') } });
    expect(supply({ abpi: '', abpiDay: '' })).toHaveProperty('errors');
    expect(supply({ abpi: '0.72' }, 'present')).toMatchObject({ answers: [{ answer: 'present', figures: { abpi: 0.72 } }] });
    expect(supply({ abpi: '95 %' }, 'present')).toMatchObject({
      errors: { 'blood-supply-left/abpi': expect.stringContaining('0.05 to 3.99') },
    });
    expect(supply({ abpiDay: '2026-11-26' }, 'present')).toMatchObject({
      errors: { 'blood-supply-left/abpiDay': 'This day has not come yet.' },
    });
  });

  it('“cannot be measured” with why is kept as it is', () => {
    const cannot = {
      check: 'cannot be measured',
      clinical: 'good',
      why: 'too swollen',
      pressure: '32',
      risk: 'none',
      abpiDay: '2026-11-25',
      by: 'KD',
    };
    expect(read({ 'blood-supply-left': 'present', ...boxes('blood-supply-left', cannot) })).toMatchObject({
      answers: [{ answer: 'present', figures: { details: cannot } }],
    });
    const advised = { ...cannot, advice: 'Dr Hale, letter of 12 Nov' };
    expect(read({ 'blood-supply-left': 'absent', ...boxes('blood-supply-left', advised) })).toHaveProperty('answers');
  });

  it('words or figures without an answer, an unknown answer and an empty form are refused; unknown boxes are nothing', () => {
    expect(read({ 'broken-skin/words': 'at the heel' })).toMatchObject({ errors: { 'broken-skin': expect.any(String) } });
    expect(read({ 'broken-skin/where': 'at the heel' })).toMatchObject({ errors: { 'broken-skin': expect.any(String) } });
    expect(read({ 'broken-skin': 'perhaps' })).toMatchObject({ errors: { form: expect.any(String) } });
    expect(read({ 'no-such-card': 'present' })).toMatchObject({ errors: { form: expect.any(String) } });
  });
});
