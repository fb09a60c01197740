import { describe, expect, it } from 'vitest';
import { calendarDay } from '@/lib/units/calendar-day';
import { ladderOf, recordOf, visitOf } from '../made-up-ladder';
import { legOf, promptsOf } from './made-up-piece';

const weighed = { weight: '70 kg' };

describe('one-sided gain', () => {
  const bulge = (by: number) => (placeCm: number) => (placeCm === 20 || placeCm === 24 ? by : 0);
  const gain = (...visits: ReturnType<typeof visitOf>[]) => promptsOf('one-sided-gain', recordOf(visits), '2026-03-01');

  it('refers when the calf is larger by 3 cm than at a visit within a fortnight', () => {
    const [prompt] = gain(visitOf('2026-02-01', [legOf()], weighed), visitOf('2026-02-08', [legOf(1, { at: bulge(3.2) })], weighed));
    expect([prompt?.action, prompt?.due, prompt?.title]).toEqual([
      'refer',
      '2026-02-08',
      'The left calf has become larger in 7 days. Tell the prescriber today.',
    ]);
    expect(prompt?.missing).toEqual(['The other leg was not measured on both days.']);
  });

  it('asks about onset, pain, warmth and colour after a longer gap: 4 cm after twelve weeks is no matter of measuring again', () => {
    const visits = [visitOf('2025-11-16', [legOf()], weighed), visitOf('2026-02-08', [legOf(1, { at: bulge(4) })], weighed)];
    const [prompt] = gain(...visits);
    expect([prompt?.action, prompt?.due]).toEqual(['refer', '2026-02-08']);
    expect(prompt?.title).toMatch(
      /^The left calf is 4\.0\scm larger than at the visit before\. Ask today when it began, and about pain, warmth and colour/,
    );
    const asked = { card: 'new-swelling-left-leg', cardVersion: '1', answer: 'absent', words: null, figures: null } as const;
    const answered = (day: string) => recordOf(visits, { cautions: [{ ...asked, day: calendarDay(day) }] });
    expect(promptsOf('one-sided-gain', answered('2026-02-08'), '2026-03-01')).toEqual([]);
    expect(promptsOf('one-sided-gain', answered('2026-02-07'), '2026-03-01')).toHaveLength(1);
  });

  it('sees an arm, 2 cm beyond the other one', () => {
    const arm = (side: 'left' | 'right', by: number) =>
      ladderOf({
        limb: 'arm',
        side,
        zero: 'wrist-crease',
        girths: [16, 17.5, 20, 22.5, 24.5, 25, 25.5, 27, 28.5, 29.5].map((girth, rung): [number, number] => [
          4 * rung,
          girth + (rung >= 3 && rung <= 5 ? by : 0),
        ]),
        landmarks: { 'elbow-crease': 24, 'axillary-fold': 36 },
      });
    const visits = (by: number) => [
      visitOf('2025-11-16', [arm('left', 0), arm('right', 0)], weighed),
      visitOf('2026-02-08', [arm('left', by), arm('right', 0)], weighed),
    ];
    expect(gain(...visits(2.2))[0]?.title).toMatch(/^The left arm is 2\.2\scm larger/);
    expect(gain(...visits(1.8))).toEqual([]);
  });

  it('does not take growth for swelling: a child a year older, the other leg not measured', () => {
    const child = (day: string, factor: number, height: string, weight: string) => visitOf(day, [legOf(factor)], { height, weight });
    const visits = [child('2025-02-08', 0.85, '120', '24'), child('2026-02-08', 0.92, '130', '31')];
    expect(promptsOf('one-sided-gain', recordOf(visits, { born: calendarDay('2017-01-01') }), '2026-03-01')).toEqual([]);
  });

  it('is silent for less, and when the other calf gained as much', () => {
    expect(gain(visitOf('2026-02-01', [legOf()], weighed), visitOf('2026-02-08', [legOf(1, { at: bulge(2.8) })], weighed))).toEqual([]);
    const both = (by: number) => [legOf(1, { at: bulge(by) }), legOf(1, { side: 'right', at: bulge(by) })];
    expect(gain(visitOf('2026-02-01', both(0), weighed), visitOf('2026-02-08', both(3.2), weighed))).toEqual([]);
  });

  it('adds up over visits within the fortnight: 2 cm twice', () => {
    const visits = [0, 2, 4].map((by, index) => visitOf(`2026-02-0${1 + 3 * index}`, [legOf(1, { at: bulge(by) })], weighed));
    expect(gain(...visits)[0]?.facts[0]).toContain('1 Feb 2026');
  });

  it('does not take a leg that was unequal all along for a new gain', () => {
    const unequal = () => [legOf(1, { at: bulge(4) }), legOf(1, { side: 'right' })];
    expect(gain(visitOf('2026-02-01', unequal(), weighed), visitOf('2026-02-08', unequal(), weighed))).toEqual([]);
  });
});

describe('sudden weight gain', () => {
  const gain = (...weights: [string, string][]) =>
    promptsOf('sudden-weight-gain', recordOf(weights.map(([day, weight]) => visitOf(day, [], { weight }))), '2026-03-01');

  it('refers for more than 2 kg within 3 days, and for nothing less or slower', () => {
    expect(gain(['2026-02-01', '80 kg'], ['2026-02-04', '82.1 kg'])[0]?.action).toBe('refer');
    expect(gain(['2026-02-01', '80 kg'], ['2026-02-04', '82 kg'])).toEqual([]);
    expect(gain(['2026-02-01', '80 kg'], ['2026-02-05', '83 kg'])).toEqual([]);
    expect(gain(['2026-02-01', '80 kg'], ['2026-02-02', '77 kg'])).toEqual([]);
    expect(gain(['2026-02-01', '80 kg'])).toEqual([]);
  });

  it('is answered by a later weighing that has come down again', () => {
    expect(gain(['2026-02-01', '80 kg'], ['2026-02-03', '83 kg'], ['2026-02-10', '80 kg'])).toEqual([]);
  });
});

describe('readings', () => {
  it('asks for a doubtful rung of the newest ladder, not of an older one', () => {
    const odd = legOf(1, { at: (placeCm) => (placeCm === 24 ? 10 : 0) });
    const newest = promptsOf('doubtful-readings', recordOf([visitOf('2026-01-05', [legOf()]), visitOf('2026-02-05', [odd])]), '2026-02-06');
    expect([newest[0]?.action, newest[0]?.title]).toEqual(['repeat-reading', 'Consider measuring one place of the left leg again.']);
    expect(
      promptsOf('doubtful-readings', recordOf([visitOf('2026-01-05', [odd]), visitOf('2026-02-05', [legOf()])]), '2026-02-06'),
    ).toEqual([]);
  });

  it('names four of five doubtful places and the day of the ladder', () => {
    const off = [8, 20, 32, 44, 56];
    const odd = legOf(1, { at: (placeCm) => (off.includes(placeCm) ? 30 : 0) });
    const [prompt] = promptsOf('doubtful-readings', recordOf([visitOf('2026-02-05', [odd])]), '2026-02-06');
    const places = Number(/measuring (\d+) places/.exec(prompt?.title ?? '')?.[1]);
    expect(places).toBeGreaterThan(4);
    expect([prompt?.facts.length, prompt?.facts.at(-1)]).toEqual([5, 'Ladder of 5 Feb 2026.']);
  });

  it('asks for a zero that looks moved, and not for one in its place', () => {
    const shifted = legOf();
    const rungs = shifted.rungs.slice(0, -1).map((rung, index) => ({ ...rung, girth: shifted.rungs[index + 1]?.girth ?? null }));
    const moved = promptsOf(
      'moved-zero',
      recordOf([visitOf('2026-01-05', [legOf()]), visitOf('2026-02-05', [{ ...shifted, rungs, landmarks: [] }])]),
      '2026-02-06',
    );
    expect(moved[0]?.action).toBe('repeat-reading');
    expect(moved[0]?.missing).toEqual(['A second landmark on the ruler would tell a moved zero from a change.']);
    expect(promptsOf('moved-zero', recordOf([visitOf('2026-01-05', [legOf()]), visitOf('2026-02-05', [legOf()])]), '2026-02-06')).toEqual(
      [],
    );
  });
});

describe('an unexplained change', () => {
  const unexplained = (...factors: number[]) =>
    promptsOf(
      'unexplained-change',
      recordOf(factors.map((factor, index) => visitOf(`2026-0${index + 1}-05`, [legOf(factor)], weighed))),
      '2026-06-01',
    );

  it('asks for the tape again at first, and for a clinical review when the next visit shows it too', () => {
    expect(unexplained(1, 1.06)[0]?.action).toBe('repeat-reading');
    const [confirmed] = unexplained(1, 1.06, 1.065);
    expect([confirmed?.action, confirmed?.title]).toEqual([
      'review',
      'Consider a clinical review of the left leg: larger than expected at two visits.',
    ]);
    expect(unexplained(1, 1.06, 0.93)[0]?.action).toBe('repeat-reading');
    expect(unexplained(1, 0.93, 0.93)[0]?.title).toContain('smaller');
  });

  it('is silent within error, back in place, and where weight explains it', () => {
    expect(unexplained(1, 1.01)).toEqual([]);
    expect(unexplained(1, 1.06, 1)).toEqual([]);
    // A leg follows weight by about 1.1^0.45 = 1.044.
    const heavier = recordOf([visitOf('2026-01-05', [legOf()], weighed), visitOf('2026-03-05', [legOf(1.044)], { weight: '77 kg' })]);
    expect(promptsOf('unexplained-change', heavier, '2026-06-01')).toEqual([]);
  });
});

describe('an overdue visit', () => {
  const overdue = (born: string, today: string) =>
    promptsOf('visit-overdue', recordOf([visitOf('2026-01-05', [legOf()])], { born: calendarDay(born) }), today);

  it('asks the day after the clinic’s interval by age: 182 days for adults, 84 growing, 56 under five, 42 under two', () => {
    for (const [born, days] of [
      ['1980-01-01', 182],
      ['2016-01-01', 84],
      ['2022-01-01', 56],
      ['2025-01-01', 42],
    ] as const) {
      const due = new Date(Date.UTC(2026, 0, 5 + days)).toISOString().slice(0, 10);
      const after = new Date(Date.UTC(2026, 0, 6 + days)).toISOString().slice(0, 10);
      expect(overdue(born, due)).toEqual([]);
      expect(overdue(born, after)[0]?.due).toBe(due);
    }
  });

  it('has nothing to say of a patient without a visit', () => {
    expect(promptsOf('visit-overdue', recordOf([]), '2026-06-01')).toEqual([]);
  });
});
