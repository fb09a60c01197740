import { describe, expect, it } from 'vitest';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { inputsOf, type PromptAnswer } from '@/lib/prompts/decide-prompts';
import type { PatientRecord } from '@/lib/record/patient-record';
import { promptsOnWorkingDays } from '@/lib/schedule/on-working-days';
import { patientWork } from '@/lib/schedule/patient-work';
import { stillOpen } from '@/lib/schedule/still-open';
import { calendarDay, showWeekday } from '@/lib/units/calendar-day';
import { recordOf, visitOf } from '../made-up-ladder';
import { legOf, pieceOf, promptsOf } from '../prompts/made-up-piece';

const TODAY = calendarDay('2026-03-10');

function openOf(record: PatientRecord, answers: readonly PromptAnswer[] = []): string[] {
  const work = patientWork(record, { answers, moves: [] }, DEFAULT_POLICY, TODAY);
  return stillOpen(work, answers, TODAY);
}

/** A leg that grew by 6 % under a piece that nobody has worn: every place is tighter than the band. */
const outgrown = (more: Partial<PatientRecord> = {}) =>
  recordOf([visitOf('2026-01-05', [legOf()]), visitOf('2026-03-05', [legOf(1.06)])], { pieces: [pieceOf('2026-01-05')], ...more });

describe('what is named before a page says that nothing is asked', () => {
  it('is nothing where nothing is open', () => {
    expect(openOf(recordOf([visitOf('2026-03-05', [legOf()])]))).toEqual([]);
  });

  it('is a piece in use outside its band, with how many of its places; not one taken out of use', () => {
    expect(openOf(outgrown())).toEqual([
      expect.stringMatching(/^Piece 1, left leg: 7 of 7 places tighter than its band \(up to 1\.3\d as cut; band 0\.75–1\.25\)\.$/),
    ]);
    const retired = pieceOf('2026-01-05', { retired: calendarDay('2026-02-01') });
    expect(openOf(outgrown({ pieces: [retired] }))).toEqual([]);
  });

  it('is no piece that nobody has: on order, or sent back', () => {
    expect(openOf(outgrown({ pieces: [pieceOf('2026-01-05', { orderId: 'o' })] }))).toEqual([]);
    const back = {
      day: calendarDay('2026-02-01'),
      zones: [],
      outcome: 'alter',
      reason: 'girth wrong',
      words: null,
      taught: false,
    } as const;
    expect(openOf(outgrown({ pieces: [pieceOf('2026-01-05', { orderId: 'o', delivered: null, fit: back })] }))).toEqual([]);
  });

  it('names the places that the prompt counts: one rough rung on a leg that did not change is none, beside growth it is not one more', () => {
    const rough = (factor: number) =>
      recordOf([visitOf('2026-01-05', [legOf()]), visitOf('2026-03-05', [legOf(factor, { at: (cm) => (cm === 16 ? 2 : 0) })])], {
        pieces: [pieceOf('2026-01-05')],
      });
    const counted = (factor: number) => {
      const [prompt] = promptsOf('tightness-left-band', rough(factor), TODAY);
      const said = openOf(rough(factor)).flatMap((one) => /^Piece 1, left leg: (\d of \d) places tighter/.exec(one)?.[1] ?? []);
      return [prompt?.figures?.[1]?.value, said[0]];
    };
    expect(counted(1)).toEqual([undefined, undefined]);
    for (const factor of [1.02, 1.03, 1.04, 1.05]) {
      const [prompt, said] = counted(factor);
      expect(said, `${factor}`).toBe(prompt);
    }
    expect(counted(1.06)).toEqual(['7 of 7', '7 of 7']);
  });

  it('is no piece while the course is on hold or ended', () => {
    const phases = [
      { kind: 'on-hold', from: calendarDay('2026-03-06'), until: null, baselineDay: null, askOn: calendarDay('2026-06-01') } as const,
    ];
    expect(openOf(outgrown({ phases }))).toEqual([]);
  });

  it('is a prompt put off, with the day', () => {
    const { raised } = patientWork(outgrown(), { answers: [], moves: [] }, DEFAULT_POLICY, TODAY);
    const [prompt] = raised;
    if (!prompt) throw new Error('no prompt');
    const answer = { cause: prompt.cause, inputs: inputsOf(prompt), answer: 'not-now', until: '2026-04-01' } as const;
    expect(openOf(outgrown(), [answer])).toContain(`Put off to 1 Apr 2026: ${prompt.title}`);
  });

  it('is a date that passed, where no prompt asks for it', () => {
    const late = recordOf([visitOf('2026-03-05', [legOf()])], {
      bookings: [{ bookingId: 'b', day: calendarDay('2026-03-02'), time: null, what: null, state: 'booked', reason: null }] as never,
    });
    expect(openOf(late)).toEqual(['Was the booked visit kept?: was due 2 Mar 2026.']);
  });
});

describe('a prompt that is due on a closed day', () => {
  // 7 and 8 March 2026 are a Saturday and a Sunday.
  const weekdays = { weekdays: [1, 2, 3, 4, 5], closed: [], capacity: null };
  const { open } = patientWork(outgrown(), { answers: [], moves: [] }, DEFAULT_POLICY, TODAY);
  const [prompt] = open;
  const due = (action: 'order' | 'remeasure', day: string) =>
    promptsOnWorkingDays(
      prompt ? [{ ...prompt, action, due: calendarDay(day), title: `By ${showWeekday(calendarDay('2026-03-08'))}.`, facts: ['One.'] }] : [],
      weekdays,
      calendarDay('2026-03-02'),
    )[0];

  it('is asked for by the working day before, and says so', () => {
    const moved = due('order', '2026-03-08');
    expect([moved?.due, moved?.title]).toEqual(['2026-03-06', `By ${showWeekday(calendarDay('2026-03-06'))}.`]);
    expect(moved?.facts[0]).toBe('One.');
    expect(moved?.facts[1]).toMatch(/^Friday 6 Mar.* is .*8 Mar/);
  });

  it('stays where the clinic works that day, and where it is about the day something was measured', () => {
    expect(due('order', '2026-03-06')).toMatchObject({ due: '2026-03-06', facts: ['One.'] });
    expect(due('remeasure', '2026-03-08')).toMatchObject({ due: '2026-03-08', facts: ['One.'] });
  });
});
