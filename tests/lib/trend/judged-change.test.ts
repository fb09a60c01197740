import { describe, expect, it } from 'vitest';
import { isNoAnswer } from '@/lib/outcome';
import type { Visit } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { recordOf, visitOf } from '../made-up-ladder';
import { analysed, legOf } from '../prompts/made-up-piece';

type Rest = Parameters<typeof visitOf>[2];

function judgedOf(first: Visit, second: Visit, rest: Parameters<typeof recordOf>[1] = {}) {
  const limb = analysed(recordOf([first, second], rest), '2026-12-01').limbs.find((one) => one.series.side === 'left');
  const judged = limb?.visits.at(-1)?.sinceBaseline;
  if (!judged || isNoAnswer(judged)) throw new Error('no verdict');
  return judged;
}

const weighed = { weight: '70 kg', height: '170 cm' };
const on = (day: string, factor: number, rest: Rest = weighed) => visitOf(day, [legOf(factor)], rest);

describe('the verdict between two visits', () => {
  it('is no clear change within the error of the tape', () => {
    expect(judgedOf(on('2026-01-05', 1), on('2026-03-05', 1.008)).verdict).toBe('no-clear-change');
  });

  it('is as expected when weight explains a real change: +10 % of weight, 1.1^0.45 of girth', () => {
    expect(judgedOf(on('2026-01-05', 1), on('2026-03-05', 1.044, { ...weighed, weight: '77 kg' })).verdict).toBe('as-expected');
  });

  it('is more or less than expected when nothing explains it', () => {
    expect(judgedOf(on('2026-01-05', 1), on('2026-03-05', 1.06)).verdict).toBe('more-than-expected');
    expect(judgedOf(on('2026-01-05', 1), on('2026-03-05', 0.94)).verdict).toBe('less-than-expected');
    const heavier = on('2026-03-05', 1, { ...weighed, weight: '80 kg' });
    const keptBody = [{ kind: 'weight', by: 'R. Adeyemi', at: '2026-03-05T10:00:00Z' }];
    expect(judgedOf(on('2026-01-05', 1), { ...heavier, keptBody }).verdict).toBe('less-than-expected');
  });

  it('cannot be told when it hangs on a weight that looks odd and nobody kept', () => {
    const judged = judgedOf(on('2026-01-05', 1), on('2026-03-05', 1, { ...weighed, weight: '80 kg' }));
    expect([judged.verdict, judged.confounders]).toEqual(['cannot-tell', ['doubtful-body']]);
  });

  it('cannot be told of a child whose height was typed with two digits exchanged: 182 for 128 cm', () => {
    const child = { born: calendarDay('2017-10-01') };
    const judged = judgedOf(
      on('2026-01-05', 1, { weight: '26 kg', height: '126 cm' }),
      on('2026-05-05', 1.01, { weight: '27 kg', height: '182 cm' }),
      child,
    );
    expect([judged.verdict, judged.confounders]).toEqual(['cannot-tell', ['doubtful-body']]);
    expect(judged.change.later.doubts.map(({ kind, distanceMm, message }) => [kind, distanceMm, message])).toEqual([
      [
        'height',
        null,
        expect.stringMatching(
          /^Height 182 cm\? From 5 Jan 2026 about 12\d\.\d\u202fcm is expected\. With two digits swapped it would be 128\u202fcm\.$/,
        ),
      ],
    ]);
  });

  it.each([
    ['another posture', { ...weighed, posture: 'standing' }, 'posture'],
    ['five hours later in the day', { ...weighed, time: '15:30' }, 'time-of-day'],
    ['another measurer', { ...weighed, measurer: 'KD' }, 'other-measurer'],
    ['an unknown measurer', { ...weighed, measurer: null }, 'other-measurer'],
  ])('cannot be told of a leg taped in %s, when the change is no larger than that may bring', (_what, rest, reason) => {
    const judged = judgedOf(on('2026-01-05', 1), on('2026-03-05', 1.032, rest));
    expect([judged.verdict, judged.confounders]).toEqual(['cannot-tell', [reason]]);
  });

  it('counts the hours between two times across midnight: half past eleven and half past twelve at night are an hour apart', () => {
    const confounders = (then: string, now: string) =>
      judgedOf(on('2026-01-05', 1, { ...weighed, time: then }), on('2026-03-05', 1.032, { ...weighed, time: now })).confounders;
    expect(confounders('23:30', '00:30')).toEqual([]);
    expect(confounders('12:30', '00:30')).toEqual(['time-of-day']);
  });

  it('does not hide a change larger than posture or another hand may bring', () => {
    expect(judgedOf(on('2026-01-05', 1), on('2026-03-05', 1.12, { ...weighed, posture: 'standing' })).verdict).toBe('more-than-expected');
  });

  it('cannot be told of a child without height, and says so', () => {
    const child = { born: calendarDay('2017-01-01') };
    const judged = judgedOf(on('2026-01-05', 1, { weight: '30 kg' }), on('2026-06-05', 1.06, { weight: '33 kg' }), child);
    expect([judged.verdict, judged.confounders]).toEqual(['cannot-tell', ['missing-height']]);
  });

  it('cannot be told when too little of the baseline was taped again', () => {
    const short = { ...legOf(1.06), rungs: legOf(1.06).rungs.slice(0, 5) };
    expect(judgedOf(on('2026-01-05', 1), visitOf('2026-03-05', [short], weighed)).confounders).toContain('little-shared-span');
  });

  it('cannot be told when it hangs on a rung in doubt', () => {
    const girths = legOf(1.012, { at: (place) => (place === 48 || place === 52 ? 0 : place === 56 ? 12 : 0) });
    const judged = judgedOf(on('2026-01-05', 1), visitOf('2026-03-05', [girths], weighed));
    expect([judged.verdict, judged.confounders.includes('doubtful-rungs')]).toEqual(['cannot-tell', true]);
  });

  it('cannot be told when a landmark lies elsewhere than it did', () => {
    const misread = legOf(1);
    const landmarks = misread.landmarks.map((one) =>
      one.landmark === 'knee' ? { ...one, distance: { ...one.distance, text: '38', nm: 380_000_000 as never } } : one,
    );
    const judged = judgedOf(on('2026-01-05', 1), visitOf('2026-03-05', [{ ...misread, landmarks }], weighed));
    expect([judged.verdict, judged.confounders.includes('landmarks-disagree')]).toEqual(['cannot-tell', true]);
  });

  it('takes the healthy other limb for a witness: what both did is no swelling', () => {
    const both = (day: string, left: number, right: number) => visitOf(day, [legOf(left), legOf(right, { side: 'right' })], weighed);
    expect(judgedOf(both('2026-01-05', 1, 1), both('2026-03-05', 1.06, 1)).verdict).toBe('more-than-expected');
    const alike = judgedOf(both('2026-01-05', 1, 1), both('2026-03-05', 1.04, 1.04));
    expect(Math.abs((alike.explained?.unexplainedRatio ?? 0) - 1)).toBeLessThan(0.02);
  });
});
