import { describe, expect, it } from 'vitest';
import { isNoAnswer } from '@/lib/outcome';
import { courseSentence, howSureInWords, partInWords } from '@/lib/prompts/change-in-words';
import type { Visit } from '@/lib/record/patient-record';
import { verdictSentence } from '@/lib/summary/verdict-sentence';
import { recordOf, visitOf } from '../made-up-ladder';
import { analysed, legOf, promptsOf } from './made-up-piece';

const weighed = { weight: '70 kg' };
const KNEE_CM = 28;
/** Every girth below the knee larger by a share: what changed, where and by how much is then known without any engine. */
const swollenBelow = (share: number) =>
  legOf(1, { at: (place) => (place < KNEE_CM ? share * Number(legOf().rungs[place / 4 - 1]?.girth?.text) : 0) });
const on = (day: string, ladder = legOf()) => visitOf(day, [ladder], weighed);
const VISITS = [on('2026-01-05'), on('2026-02-05'), on('2026-03-05', swollenBelow(0.05))];

function judgedOf(visits: readonly Visit[]) {
  const record = recordOf([...visits]);
  const judged = analysed(record, '2026-12-01').limbs[0]?.visits.at(-1)?.sinceBaseline;
  if (!judged || isNoAnswer(judged)) throw new Error('no verdict');
  return { judged, record };
}

describe('a change of one part of a limb', () => {
  it('is a verdict by its sign, with the part, its size and the visits between which it came', () => {
    const { judged, record } = judgedOf(VISITS);
    expect([judged.verdict, judged.found?.part, judged.found?.at, judged.found?.before, judged.found?.since]).toEqual([
      'more-than-expected',
      'far',
      'knee',
      '2026-02-05',
      '2026-03-05',
    ]);
    // Planted 5 %; a size prior of 5 % against an error of about 1 % holds back a few hundredths of it.
    expect(judged.found?.ratio).toBeGreaterThan(1.04);
    expect(judged.found?.ratio).toBeLessThan(1.05);
    expect(verdictSentence(judged, record)).toMatch(
      /^Below the knee the left leg is larger than .* explains: girth \+4\.\d.%, give or take \d\.\d.%\.$/u,
    );
    expect(courseSentence(judged)).toMatch(
      /^Change beyond what is expected: (almost certain|very likely), (over )?9\d in 100; below the knee \+4\.\d.% \(\+\d\.\d.% to \+\d\.\d.%\) of girth, between 5 Feb 2026 and 5 Mar 2026\.$/u,
    );
  });

  it('is read the same from the last visit, and is none between two visits that both lie before it', () => {
    const limb = analysed(recordOf(VISITS), '2026-12-01').limbs[0];
    const [, second, third] = limb?.visits ?? [];
    if (!second?.sinceBaseline || isNoAnswer(second.sinceBaseline) || !third?.sinceLast || isNoAnswer(third.sinceLast)) throw new Error();
    expect([second.sinceBaseline.verdict, second.sinceBaseline.found]).toEqual(['no-clear-change', undefined]);
    expect([third.sinceLast.verdict, third.sinceLast.found?.part]).toEqual(['more-than-expected', 'far']);
  });

  it('asks to measure again at first, for a review when the next visit shows the same', () => {
    const [once] = promptsOf('unexplained-change', recordOf(VISITS), '2026-03-06');
    expect([once?.action, once?.title, once?.cause]).toEqual([
      'repeat-reading',
      'Consider measuring the left leg again: below the knee larger than weight, height or the other limb explain.',
      'left leg: unexplained',
    ]);
    const again = [...VISITS, on('2026-04-05', swollenBelow(0.055))];
    expect(promptsOf('unexplained-change', recordOf(again), '2026-04-06')[0]?.action).toBe('review');
  });
});

describe('a change in words', () => {
  it('says how sure it is that nothing changed beyond what is expected, and never that of a verdict that cannot be told', () => {
    const found = { part: 'near', at: null, before: '2026-01-05', since: '2026-02-05', ratio: 1.04, sd: 0.01 } as never;
    expect(howSureInWords({ probability: 0.07, found: undefined, verdict: 'no-clear-change' })).toBe('very likely as expected, 93 in 100');
    expect(howSureInWords({ probability: 0.997, found, verdict: 'more-than-expected' })).toBe('almost certain, over 99 in 100');
    expect(howSureInWords({ probability: 0.9, found: undefined, verdict: 'cannot-tell' })).toBe(
      'undecided, 90 in 100 for a change by the figures as recorded',
    );
    // 0.896 is shown as 90 in 100: the word is that of 90.
    expect(howSureInWords({ probability: 0.896, found, verdict: 'more-than-expected' })).toBe('very likely, 90 in 100');
    expect(howSureInWords({ probability: undefined, found: undefined, verdict: 'cannot-tell' })).toBeUndefined();
    expect([partInWords(found), partInWords({ part: 'near', at: 'elbow-crease' }), partInWords({ part: 'whole', at: 'knee' })]).toEqual([
      'in its near half',
      'above the elbow crease',
      '',
    ]);
  });
});

describe('verdicts from what was known on the day', () => {
  it('stay as they were given when later visits come', () => {
    const later = [...VISITS, on('2026-04-05', swollenBelow(0.06)), on('2026-05-05', legOf(1.06))];
    const said = (visits: readonly Visit[]) =>
      analysed(recordOf([...visits]), '2026-12-01').limbs[0]?.visits.map(({ sinceBaseline: one }) =>
        one && !isNoAnswer(one) ? [one.verdict, one.probability, one.found, one.explained] : null,
      );
    const all = said(later) ?? [];
    for (let count = 2; count < later.length; count++) expect(said(later.slice(0, count))).toEqual(all.slice(0, count));
  });

  it('do not take landmarks or a weight from a later visit', () => {
    const bare = { ...legOf(1.01), landmarks: [] };
    const first = visitOf('2026-01-05', [{ ...legOf(), landmarks: [] }], {});
    const second = visitOf('2026-02-05', [bare], {});
    const third = visitOf('2026-02-20', [legOf(1.03)], weighed);
    const of = (visits: readonly Visit[]) => analysed(recordOf([...visits]), '2026-12-01').limbs[0]?.visits[1]?.sinceBaseline;
    const [then, now] = [of([first, second]), of([first, second, third])];
    if (!then || isNoAnswer(then) || !now || isNoAnswer(now)) throw new Error('no verdict');
    expect([now.change.body.missing, now.probability, now.explained]).toEqual([['weight'], then.probability, then.explained]);
  });
});
