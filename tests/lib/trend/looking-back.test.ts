import { describe, expect, it } from 'vitest';
import { answersToGive } from '@/lib/analysis/given-answers';
import { isNoAnswer } from '@/lib/outcome';
import { givenSentence, lookingBackNote, lookingBackSentence } from '@/lib/summary/looking-back';
import { lookBack } from '@/lib/trend/looking-back';
import { calendarDay } from '@/lib/units/calendar-day';
import { recordOf, visitOf } from '../made-up-ladder';
import { analysed, legOf } from '../prompts/made-up-piece';

const weighed = { weight: '70 kg', height: '170 cm' };
const DAYS = ['2026-01-05', '2026-03-05', '2026-05-05', '2026-07-05', '2026-09-05'] as const;

function courseOf(...factors: readonly number[]) {
  const visits = factors.map((factor, index) => visitOf(DAYS[index] ?? '', [legOf(factor)], weighed));
  const analysis = analysed(recordOf(visits), '2026-12-01');
  const limb = analysis.limbs.find((one) => one.series.side === 'left');
  if (!limb) throw new Error('no leg');
  const [first] = limb.series.visits;
  const at = (visit: number) => {
    const back = lookBack(limb.course, first as never, limb.series.visits[visit] as never);
    const judged = limb.visits[visit]?.sinceFirst;
    if (!back || !judged || isNoAnswer(judged)) throw new Error('no say');
    return { back, verdict: judged.verdict, probability: judged.probability ?? 0 };
  };
  return { analysis, limb, at };
}

describe('looking back', () => {
  it('a small change that stayed is likelier seen from later, and the first day that has it is named', () => {
    const { at } = courseOf(1, 1, 1.0252, 1.0252, 1.0252);
    const { back, verdict, probability } = at(2);
    expect(verdict).toBe('no-clear-change');
    expect(back.probability).toBeGreaterThan(probability);
    expect(back).toMatchObject({ larger: true, since: '2026-05-05', before: '2026-03-05', from: '2026-09-05' });
    expect(lookingBackSentence(verdict, back, 0.4)).toMatch(
      /^Looking back from 5 Sep 2026: larger by this visit than expected, [a-z ]+, [a-z0-9 ]+ in 100, between 5 Mar 2026 and 5 May 2026\.$/,
    );
    expect(lookingBackNote(verdict, back, 0.4)).toMatch(/^looking back larger, \d\d in 100$/);
  });

  it('a change that was gone at once looks smaller than it was said to be', () => {
    const { at } = courseOf(1, 1.045, 1, 1, 1);
    const { back, verdict, probability } = at(1);
    expect(verdict).toBe('more-than-expected');
    expect(back.probability).toBeLessThan(probability);
  });

  it('a change that came later is not said of the visits before it', () => {
    const { at } = courseOf(1, 1, 1, 1.08, 1.08);
    expect(at(2).back.probability).toBeLessThan(0.1);
    expect(at(3).back.probability).toBeGreaterThan(0.9);
    expect(lookingBackSentence(at(3).verdict, at(3).back, 0.4)).toMatch(/Later visits agree\.$/);
    expect(lookingBackNote(at(3).verdict, at(3).back, 0.4)).toBeUndefined();
  });

  it('of the newest visit, and of a visit against itself, there is nothing to look back on', () => {
    const { limb } = courseOf(1, 1.03, 1.03);
    const [first, second, newest] = limb.series.visits as [never, never, never];
    expect(lookBack(limb.course, first, newest)).toBeUndefined();
    expect(lookBack(limb.course, second, second)).toBeUndefined();
    expect(lookBack(limb.course, second, first)).toBeUndefined();
  });
});

describe('what is given of a visit', () => {
  it('is each limb’s verdicts at its newest visit, against the baseline and the visit before', () => {
    const { analysis } = courseOf(1, 1, 1.08);
    const [given, ...others] = answersToGive(analysis);
    expect(others).toEqual([]);
    expect(given?.visit.day).toBe('2026-05-05');
    expect(given?.verdicts).toMatchObject([
      { limb: 'leg', side: 'left', against: 'baseline', earlierDay: '2026-01-05', verdict: 'more-than-expected', since: '2026-05-05' },
      { limb: 'leg', side: 'left', against: 'last', earlierDay: '2026-03-05', verdict: 'more-than-expected', since: '2026-05-05' },
    ]);
    expect(givenSentence(given?.verdicts[1] as never, calendarDay('2026-05-06'))).toMatch(
      /^Said on 6 May 2026 against 5 Mar 2026: larger than expected \(probability of a change (9\d|100) in 100\)\.$/,
    );
  });

  it('a first visit has none', () => {
    expect(answersToGive(courseOf(1).analysis)).toMatchObject([{ verdicts: [], outlooks: [] }]);
  });
});
