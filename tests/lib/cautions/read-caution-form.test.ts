import { describe, expect, it } from 'vitest';
import { cardStates } from '@/lib/cautions/caution-cards';
import { readCautionForm } from '@/lib/cautions/read-caution-form';
import type { CautionAnswer } from '@/lib/record/caution-answer';
import { DEFAULT_POLICY } from '@/lib/record/policy';
import { calendarDay } from '@/lib/units/calendar-day';
import { recordOf } from '../made-up-ladder';

const TODAY = calendarDay('2026-11-25');
const PRESENT: CautionAnswer = { card: 'heart-failure', cardVersion: '1', answer: 'present', day: TODAY, words: null, figures: null };

function read(typed: Readonly<Record<string, string>>, cautions: readonly CautionAnswer[] = []) {
  const about = { record: recordOf([], { cautions }), policy: DEFAULT_POLICY, today: TODAY };
  return readCautionForm(typed, cardStates(about), about);
}

describe('a form of caution cards', () => {
  it('keeps the answers given, each with its wording, version and limits; cards without an answer are left out', () => {
    expect(read({ 'one-sided-swelling': 'present', 'one-sided-swelling/words': ' left, since Sunday ', 'broken-skin': '' })).toEqual({
      answers: [
        {
          card: 'one-sided-swelling',
          cardVersion: '1',
          answer: 'present',
          wording: expect.stringMatching(/3 cm or more larger.*Same-day medical assessment.*refer to the prescriber\.$/),
          words: 'left, since Sunday',
          figures: { limits: { calfGainMm: 30, calfGainDays: 14 } },
        },
      ],
    });
  });

  it('a card that stands as present is not cleared without words', () => {
    expect(read({ 'heart-failure': 'absent' }, [PRESENT])).toMatchObject({
      errors: { 'heart-failure/words': expect.stringContaining('what has changed') },
    });
    expect(read({ 'heart-failure': 'not-known', 'heart-failure/words': '  ' }, [PRESENT])).toHaveProperty('errors');
    expect(read({ 'heart-failure': 'absent', 'heart-failure/words': 'cardiology letter of 20 Nov' }, [PRESENT])).toHaveProperty('answers');
    expect(read({ 'heart-failure': 'present' }, [PRESENT])).toHaveProperty('answers');
  });

  it('blood supply is confirmed only by an index with its day that the limits let pass', () => {
    const supply = (abpi: string, abpiDay: string, answer = 'absent') =>
      read({ 'arterial-supply': answer, 'arterial-supply/abpi': abpi, 'arterial-supply/abpiDay': abpiDay });
    expect(supply('0,95', '2026-10-01')).toMatchObject({
      answers: [{ figures: { abpi: 0.95, abpiDay: '2026-10-01', limits: { abpiLow: 0.8 } } }],
    });
    expect(supply('0.72', '2026-10-01')).toMatchObject({ errors: { 'arterial-supply': expect.stringContaining('below 0.8') } });
    expect(supply('', '')).toHaveProperty('errors');
    expect(supply('0.72', '2026-10-01', 'present')).toMatchObject({ answers: [{ answer: 'present', figures: { abpi: 0.72 } }] });
    expect(supply('95 %', '2026-10-01', 'present')).toMatchObject({
      errors: { 'arterial-supply/abpi': expect.stringContaining('like 0.95') },
    });
    expect(supply('0.95', '2026-11-26', 'present')).toMatchObject({ errors: { 'arterial-supply/abpiDay': 'This day has not come yet.' } });
  });

  it('words without an answer, an unknown answer and an empty form are refused; unknown boxes are nothing', () => {
    expect(read({ 'broken-skin/words': 'at the heel' })).toMatchObject({ errors: { 'broken-skin': expect.any(String) } });
    expect(read({ 'broken-skin': 'perhaps' })).toMatchObject({ errors: { form: expect.any(String) } });
    expect(read({ 'no-such-card': 'present' })).toMatchObject({ errors: { form: expect.any(String) } });
  });
});
