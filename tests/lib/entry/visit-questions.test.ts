import { describe, expect, it } from 'vitest';
import { whatIsKnown } from '@/app/_sheet/read-sheet-data';
import type { KeptRecord } from '@/db/patients/records';
import { refusedDay } from '@/lib/course/visit-days';
import { unasked } from '@/lib/entry/open-questions';
import { keptFigure, typedFigure, visitQuestionKey } from '@/lib/entry/visit-question';
import { visitQuestions } from '@/lib/entry/visit-questions';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { calendarDay } from '@/lib/units/calendar-day';
import { firstSheet } from '@/lib/visit-form/first-sheet';
import { cellKey, type VisitForm } from '@/lib/visit-form/visit-form';
import { visitOf } from '@/tests/lib/made-up-ladder';
import { legOf } from '@/tests/lib/prompts/made-up-piece';

const TODAY = calendarDay('2026-11-25');
const BORN = calendarDay('2018-10-01');

/** A child of eight, 126 cm and 25 kg in August, with one leg measured today. */
const record = {
  reference: 'A',
  born: BORN,
  sex: 'F',
  affected: [{ limb: 'leg', side: 'left' }],
  pieces: [],
  visits: [visitOf('2026-08-20', [legOf()], { height: '126', weight: '25' })],
} as unknown as KeptRecord;
const known = whatIsKnown(record, DEFAULT_POLICY, TODAY, TODAY);

function form(rest: Partial<VisitForm> = {}): VisitForm {
  const sheet = { ...firstSheet('leg', 'cm'), sides: ['left'] as const, cells: { [cellKey('left', '40000000')]: { text: '21' } } };
  const bare = { time: '10:00', posture: 'lying', measurer: 'RA', height: '', weight: '', note: '', readings: [] };
  return { ...bare, day: TODAY, heightUnit: 'cm', massUnit: 'kg', sheets: [sheet], ...rest };
}

describe('questions about the visit itself', () => {
  it('ask about exchanged digits, another unit and a wrong tens digit, and offer what would fit', () => {
    expect(visitQuestions(form({ height: '182' }), known)).toMatchObject([{ kind: 'height', about: '182', wouldFit: '128\u202fcm' }]);
    expect(visitQuestions(form({ height: '17' }), known)).toMatchObject([{ kind: 'height' }]);
    expect(visitQuestions(form({ weight: '57' }), known)).toMatchObject([{ kind: 'weight' }]);
    expect(visitQuestions(form({ weight: '700' }), known)).toMatchObject([{ kind: 'weight' }]);
    expect(visitQuestions(form({ height: '127.5', weight: '25.6' }), known)).toEqual([]);
  });

  it('rest once kept, and come again with another figure', () => {
    const typed = form({ height: '182' });
    const kept = { ...typed, ...keptFigure(typed, 'height', 'RA', '2026-11-25T10:00:00Z') };
    expect(visitQuestions(kept, known)).toEqual([]);
    expect(visitQuestions({ ...kept, ...typedFigure(kept, 'height', '183') }, known)).toMatchObject([{ kind: 'height', about: '183' }]);
  });

  it('come back from the server until they were shown and left open', () => {
    const { ofVisit } = unasked(form({ height: '182' }), known, []);
    expect(ofVisit.map(({ kind }) => kind)).toEqual(['height']);
    expect(unasked(form({ height: '182' }), known, ofVisit.map(visitQuestionKey)).ofVisit).toEqual([]);
  });

  it('ask what a second visit of one day is for, until somebody says so', () => {
    const again = form({ day: '2026-08-20' });
    expect(visitQuestions(again, known)).toMatchObject([{ kind: 'second-visit' }]);
    expect(visitQuestions({ ...again, occasion: 'after-treatment' }, known)).toEqual([]);
    expect(visitQuestions(form({ day: '2026-08-21' }), known)).toEqual([]);
  });
});

describe('the days a visit can have', () => {
  it('are those from birth to today', () => {
    const days = { born: BORN, today: TODAY };
    expect([BORN, TODAY].map((day) => refusedDay(day, days))).toEqual([undefined, undefined]);
    expect(refusedDay(calendarDay('2018-09-30'), days)).toBe('30 Sep 2018 lies before the day of birth, 1 Oct 2018.');
    expect(refusedDay(calendarDay('2026-11-26'), days)).toBe('26 Nov 2026 has not come yet.');
    expect(refusedDay(calendarDay('0026-11-25'), days)).toBeDefined();
  });
});
