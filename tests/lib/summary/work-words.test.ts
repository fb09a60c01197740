import { describe, expect, it } from 'vitest';
import type { Leaving } from '@/lib/course/leaving';
import { NO_FACTS, type WorkFacts } from '@/lib/record/work-facts';
import { leavingSentence } from '@/lib/summary/leaving-words';
import { workSentences } from '@/lib/summary/work-words';
import { calendarDay } from '@/lib/units/calendar-day';
import { FACTS } from '../made-up-noted';

const TODAY = calendarDay('2026-11-25');
const contacts = [...FACTS.contacts, { name: 'Tom Vance', relation: 'uncle', phone: '555-0178' }];
const FULL: WorkFacts = {
  ...FACTS,
  ...{ contacts: [...contacts, { name: 'Ida Roe', relation: null, phone: null }], interpreter: true, dominantHand: 'left' },
  ...{ prescriberReach: 'post box 7', referralFor: 'two sleeves' },
};

describe('a state in words', () => {
  it.each(Object.keys(NO_FACTS) as (keyof WorkFacts)[])('is another one where %s is not written down', (fact) => {
    expect(workSentences({ ...FULL, [fact]: NO_FACTS[fact] }, TODAY)).not.toBe(workSentences(FULL, TODAY));
  });

  it.each(['Ida Roe, no number', 'Tom Vance (uncle), 555-0178', 'post box 7', 'two sleeves', 'with an interpreter'])('says %s', (part) => {
    expect(workSentences(FULL, TODAY)).toContain(part);
  });

  it('says that an interpreter is needed where nobody to call stands, and nothing where nothing is written down', () => {
    expect(workSentences({ ...NO_FACTS, interpreter: true }, TODAY)).toBe('an interpreter is needed');
    expect(workSentences(NO_FACTS, TODAY)).toBe('');
  });

  it('of what was gone through before leaving says who supplies and the note', () => {
    const criteria = [
      { words: 'Size is steady', met: true },
      { words: 'No wound.', met: false },
    ];
    const leaving: Leaving = { day: calendarDay('2026-11-04'), criteria, supplies: 'The pharmacy', note: 'May come back.' };
    expect(leavingSentence(leaving)).toBe('1 of 2 met on 4 Nov 2026; not met: No wound; supplied by: The pharmacy; note: May come back');
  });
});
