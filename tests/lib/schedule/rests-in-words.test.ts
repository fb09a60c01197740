import { describe, expect, it } from 'vitest';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { inputsOf } from '@/lib/prompts/decide-prompts';
import { patientWork } from '@/lib/schedule/patient-work';
import { restOfOrder, restsByKey } from '@/lib/schedule/rests-in-words';
import { calendarDay } from '@/lib/units/calendar-day';
import { recordOf, visitOf } from '../made-up-ladder';
import { legOf, pieceOf } from '../prompts/made-up-piece';

const TODAY = calendarDay('2026-08-10');
const RECORD = recordOf([visitOf('2026-07-20', [legOf()])], { pieces: [pieceOf('2026-07-20', { firstWorn: calendarDay('2026-01-10') })] });

/** The order-by date of a piece past its life, as it stands after an answer to its prompt. */
function restAfter(
  answer: 'not-now' | 'not-for-this-patient' | 'act' | 'begun' | 'open-again',
  until: string | null,
  reason: string | null,
) {
  const { raised, dates } = patientWork(RECORD, { answers: [], moves: [] }, DEFAULT_POLICY, TODAY);
  const prompt = raised.find(({ action }) => action === 'order');
  const date = dates.find(({ kind }) => kind === 'order');
  if (!prompt || !date) throw new Error('nothing is to be ordered');
  const answers = [{ cause: prompt.cause, inputs: inputsOf(prompt), answer, until, reason }];
  return {
    inDates: restsByKey(dates, raised, answers, TODAY)[date.key],
    inPieces: restOfOrder(answers, '1', date.computed, TODAY),
    ofAnotherDay: restOfOrder(answers, '1', calendarDay('2026-08-01'), TODAY),
    ofAnotherPiece: restOfOrder(answers, '2', date.computed, TODAY),
  };
}

describe('a date that has come and rests', () => {
  it('says to when it was put off and why, the same in the dates of a patient and among the pieces of the clinic', () => {
    const words = 'Put off to 20 Aug 2026: Taped again first.';
    expect(restAfter('not-now', '2026-08-20', 'Taped again first.')).toEqual({ inDates: words, inPieces: words });
    const declined = 'Answered “not for this patient”: stops wearing.';
    expect(restAfter('not-for-this-patient', null, 'stops wearing')).toEqual({ inDates: declined, inPieces: declined });
  });

  it('rests no more from the day it was put off to, nor by an answer that hides nothing', () => {
    expect(restAfter('not-now', '2026-08-10', 'x').inDates).toBeUndefined();
    for (const answer of ['act', 'begun', 'open-again'] as const)
      expect(restAfter(answer, null, null)).toEqual({ inDates: undefined, inPieces: undefined });
  });
});
