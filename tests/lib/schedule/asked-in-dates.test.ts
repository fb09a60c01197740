import { describe, expect, it } from 'vitest';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { nothingAskedInWords, repliesAsked } from '@/lib/schedule/asked-in-dates';
import { patientWork } from '@/lib/schedule/patient-work';
import { calendarDay } from '@/lib/units/calendar-day';
import { recordOf, visitOf } from '../made-up-ladder';
import { REPLIES } from '../made-up-noted';
import { legOf } from '../prompts/made-up-piece';

const TODAY = calendarDay('2026-03-10');
const told = { ...REPLIES[0], day: TODAY, time: '09:30', pageOf: TODAY, answer: null, by: null, planned: null, marks: [] } as const;
const CALL = { ...told, replyId: 'rings', call: true, hours: null, words: null };
const LOOK = { ...told, replyId: 'words', call: false, hours: null, words: 'It rubs.' };
const HOURS = { ...told, replyId: 'hours', call: false, hours: 12, words: null };
const phase = { from: calendarDay('2026-03-01'), until: null, baselineDay: null, note: '' } as const;
const ON_HOLD = { ...phase, kind: 'on-hold', askOn: calendarDay('2026-06-03') } as const;

function said(more: object, atRest = false) {
  const record = { ...recordOf([visitOf('2026-03-05', [legOf()])]), replies: [CALL, LOOK, HOURS], ...more } as never;
  const { dates } = patientWork(record, { answers: [], moves: [] }, DEFAULT_POLICY, TODAY);
  const { calls, looks } = repliesAsked(dates, (record as { replies: (typeof CALL)[] }).replies);
  const ids = (all: readonly { replyId: string }[]) => all.map(({ replyId }) => replyId);
  return { calls: ids(calls), looks: ids(looks), words: nothingAskedInWords(dates, atRest, TODAY) };
}

describe('what a patient’s page says that the family asks for', () => {
  it('is who is to be rung and what is to be looked at; enough hours alone ask for nothing', () => {
    expect(said({})).toMatchObject({ calls: ['rings'], looks: ['words'], words: expect.stringMatching(/^Nothing else is asked today\. /) });
    expect(said({ replies: [HOURS] })).toMatchObject({ calls: [], looks: [], words: expect.stringMatching(/^Nothing is asked today\. /) });
  });

  it('on hold is still asked for: nothing else is due', () => {
    expect(said({ phases: [ON_HOLD] }, true)).toEqual({
      ...{ calls: ['rings'], looks: ['words'] },
      words: 'Nothing else is due but to ask again on Wednesday 3 June.',
    });
    expect(said({ phases: [ON_HOLD], replies: [] }, true).words).toBe('Nothing is due but to ask again on Wednesday 3 June.');
  });

  it('after a death is nothing: nobody is told to call back', () => {
    expect(said({ phases: [{ ...phase, kind: 'ended', endedAs: 'died' }] }, true)).toEqual({
      ...{ calls: [], looks: [] },
      words: 'Nothing is due.',
    });
  });
});
