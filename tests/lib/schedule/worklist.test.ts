import { describe, expect, it } from 'vitest';
import { demoClinic } from '@/app/_commands/demonstration/demo-clinic';
import { lineChanges, PATIENT } from '@/db/worklist/work-diff';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import { howItEnded } from '@/lib/schedule/how-it-ended';
import { patientWork } from '@/lib/schedule/patient-work';
import { earliestDue, groupOf, type WorkItem } from '@/lib/schedule/worklist';
import { calendarDay } from '@/lib/units/calendar-day';
import { demoRecord } from '@/tests/demo-record';
import { ladderOf, recordOf, visitOf } from '../made-up-ladder';
import { REPLIES } from '../made-up-noted';

const GIRTHS = [4, 8, 12, 16, 20].map((place) => [place, 24 + place / 2] as const);

function itemsOn(today: string, visits: ReturnType<typeof visitOf>[]): readonly WorkItem[] {
  return patientWork(recordOf(visits), { answers: [], moves: [] }, DEFAULT_POLICY, calendarDay(today)).items;
}

describe('the worklist', () => {
  it('lists the next visit of an adult 182 days after the last one when nothing else is asked', () => {
    const items = itemsOn('2026-02-01', [visitOf('2026-01-01', [ladderOf({ girths: GIRTHS })])]);
    expect(items).toEqual([expect.objectContaining({ kind: 'visit', due: '2026-07-02', reason: 'Every 182 days, last 1 Jan 2026.' })]);
  });

  it('asks for the first ladder of a patient who was never taped', () => {
    expect(itemsOn('2026-02-01', [])).toEqual([
      expect.objectContaining({ kind: 'visit', due: '2026-02-01', title: 'Measure the first ladder' }),
    ]);
    const of = (affected: ReturnType<typeof recordOf>['affected']) =>
      patientWork(recordOf([], { affected }), { answers: [], moves: [] }, DEFAULT_POLICY, calendarDay('2026-02-01')).items[0]?.limb;
    expect(of([{ limb: 'arm', side: 'right' }])).toEqual({ limb: 'arm', side: 'right' });
    expect(of([])).toBeNull();
  });

  it('counts a patient by the earliest day of all lines, whichever stands in front', () => {
    const [told] = REPLIES;
    if (!told) throw new Error('no made-up reply');
    const today = calendarDay('2026-09-01');
    const reply = { ...told, day: today, answer: null, replyId: 'r1' };
    const record = { ...recordOf([visitOf('2026-01-01', [ladderOf({ girths: GIRTHS })])]), replies: [reply] };
    const work = patientWork(record, { answers: [], moves: [] }, DEFAULT_POLICY, today);
    const [first] = work.items;
    expect(first).toMatchObject({ kind: 'call', key: 'call-back:r1', due: '2026-09-01' });
    expect(first && earliestDue(first, work.items)).toBe('2026-07-02');
    // What is stored of them: one line of a call and one of a visit on their days, and one patient on the day the visit was due.
    const { counts } = lineChanges({ clinicId: 'c', patientId: 'p' }, work, [], false);
    expect(counts).toEqual([
      { kind: 'call', due: '2026-09-01', lines: 1 },
      { kind: PATIENT, due: '2026-07-02', lines: 1 },
      { kind: 'visit', due: '2026-07-02', lines: 1 },
    ]);
  });

  it('turns a passed interval into one overdue visit, not two', () => {
    const items = itemsOn('2026-09-01', [visitOf('2026-01-01', [ladderOf({ girths: GIRTHS })])]);
    expect(items.filter((item) => item.kind === 'visit')).toHaveLength(1);
    expect(items[0]).toMatchObject({ due: '2026-07-02', title: 'Book the visit' });
  });

  it('says every reason as a sentence, whatever it is about: every line of the demonstration clinic', () => {
    const lines = demoClinic(calendarDay('2026-11-25')).patients.flatMap(
      (one) => patientWork(demoRecord(one), { answers: [], moves: [] }, DEFAULT_POLICY, calendarDay('2026-11-25')).items,
    );
    expect(new Set(lines.map(({ kind }) => kind)).size).toBeGreaterThanOrEqual(4);
    for (const { reason } of lines) expect(reason).toMatch(/^[\p{Lu}\d“].*\.$/u);
  });

  it('has who asks to be rung in front, for the first working day from the day it came, until it is answered; nothing after a death', () => {
    const [told] = REPLIES;
    if (!told) throw new Error('no made-up reply');
    const saturday = calendarDay('2026-10-24');
    const reply = { ...told, day: saturday, answer: null, replyId: 'r1' };
    const record = { ...recordOf([visitOf('2026-01-01', [ladderOf({ girths: GIRTHS })])]), replies: [reply] };
    const weekdays = { weekdays: [1, 2, 3, 4, 5], closed: [], capacity: null };
    const work = (more: object) =>
      patientWork({ ...record, ...more }, { answers: [], moves: [], diary: weekdays }, DEFAULT_POLICY, calendarDay('2026-10-26')).items;
    expect(work({})[0]).toMatchObject({
      key: 'call-back:r1',
      due: '2026-10-26',
      title: 'Call back: the family asks to be rung',
      prompt: null,
    });
    expect(work({})[0]?.reason).toContain(
      'Told by the family 24 Oct 2026 at 09:30: asks to be rung; worn 6.5 h a day, 12 h planned; left leg, knee: a red mark',
    );
    expect(work({ replies: [{ ...reply, call: false }] }).find(({ key }) => key === 'reply:r1')).toMatchObject({ due: '2026-10-26' });
    const phase = { from: saturday, until: null, baselineDay: null, note: '' };
    const keys = (more: object) => work(more).map(({ key }) => key);
    expect(keys({ phases: [{ ...phase, kind: 'on-hold' }] })).toContain('call-back:r1');
    expect(keys({ phases: [{ ...phase, kind: 'ended', endedAs: 'died' }] })).not.toContain('call-back:r1');
    expect(keys({ replies: [{ ...reply, answer: told.answer }] }).filter((key) => key.includes('r1'))).toEqual([]);
    expect(howItEnded({ key: 'call-back:r1', kind: 'call-back' }, { ...record, replies: [{ ...reply, answer: told.answer }] })).toBe(
      'done',
    );
    expect(howItEnded({ key: 'call-back:r1', kind: 'call-back' }, record)).toBe('cancelled');
  });

  it('groups by day: yesterday is overdue, the sixth day is this week, the seventh is later', () => {
    const today = calendarDay('2026-11-25');
    const group = (day: string) => groupOf(calendarDay(day), today);
    expect([group('2026-11-24'), group('2026-11-25'), group('2026-12-01'), group('2026-12-02')]).toEqual([
      'overdue',
      'this-week',
      'this-week',
      'later',
    ]);
  });
});
