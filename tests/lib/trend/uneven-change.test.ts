import { describe, expect, it } from 'vitest';
import { isNoAnswer } from '@/lib/outcome';
import { unevenSentence } from '@/lib/prompts/uneven-in-words';
import type { Visit } from '@/lib/record/patient-record';
import { DEFAULT_POLICY } from '@/lib/record/policy';
import { limbChange } from '@/lib/trend/limb-change';
import { unevenChange } from '@/lib/trend/uneven-change';
import { recordOf, visitOf } from '../made-up-ladder';
import { analysed, legOf, promptsOf } from '../prompts/made-up-piece';

const weighed = { weight: '70 kg' };
const KNEE_CM = 28;
/** A plain leg with every girth below, or above, the knee larger by a share; the ratio of the parts is then known without any engine. */
const swollen = (share: number, part: 'below' | 'above') =>
  legOf(1, { at: (place) => (place < KNEE_CM === (part === 'below') && place !== KNEE_CM ? share * girthAt(place) : 0) });
const girthAt = (placeCm: number) => Number(legOf().rungs[placeCm / 4 - 1]?.girth?.text);

/** Root mean square girth between two places by slices of 0.1 mm, girth linear between the typed ones: by no formula of the engine. */
function bySlices(ladder: ReturnType<typeof legOf>, fromCm: number, toCm: number): number {
  const typed = ladder.rungs.map(({ girth }) => Number(girth?.text));
  const slices = Math.round((toCm - fromCm) * 100);
  let sum = 0;
  for (let slice = 0; slice < slices; slice++) {
    const place = (fromCm + (slice + 0.5) / 100) / 4 - 1;
    const below = Math.floor(place);
    const [low, high] = [typed[below] ?? Number.NaN, typed[below + 1] ?? Number.NaN];
    sum += (low + (place - below) * (high - low)) ** 2;
  }
  return Math.sqrt(sum / slices);
}

function judgedOf(...visits: readonly Visit[]) {
  const [limb] = analysed(recordOf([...visits]), '2026-12-01').limbs;
  const judged = limb?.visits.at(-1)?.sinceBaseline;
  if (!limb || !judged || isNoAnswer(judged)) throw new Error('no verdict');
  return { judged, series: limb.series };
}

const pair = (second: ReturnType<typeof legOf>, rest = weighed) =>
  judgedOf(visitOf('2026-01-05', [legOf()], weighed), visitOf('2026-03-05', [second], rest));

describe('a change of one part of a limb', () => {
  it('has the ratio of the parts: the same everywhere gives 1, whatever the size of the change', () => {
    for (const factor of [1, 1.05, 0.93]) {
      const { judged } = pair(legOf(factor));
      const found = unevenChange(judged.change, undefined, DEFAULT_POLICY, 0);
      expect([found?.at, Math.abs((found?.ratio ?? 0) - 1) < 0.001]).toEqual(['knee', true]);
      expect(judged.uneven).toBeUndefined();
    }
  });

  it('finds swelling below the knee that the verdict on the whole leg cannot tell, and says both parts', () => {
    const { judged } = pair(swollen(0.05, 'below'));
    expect(judged.verdict).toBe('no-clear-change');
    const [first, second] = [legOf(), swollen(0.05, 'below')];
    expect(judged.uneven?.far.girthRatio).toBeCloseTo(bySlices(second, 4, KNEE_CM) / bySlices(first, 4, KNEE_CM), 4);
    expect(judged.uneven?.near.girthRatio).toBeCloseTo(bySlices(second, KNEE_CM, 60) / bySlices(first, KNEE_CM, 60), 4);
    expect(unevenSentence(judged.uneven as NonNullable<typeof judged.uneven>, judged.change)).toMatch(
      /^Not all of the left leg did the same: girth below the knee \+\d\.\d.%, above it \+?0\.\d.%; the difference is \d\.\d.% \(give or take \d\.\d.%\) beyond what is expected\.$/u,
    );
  });

  it('finds swelling above the knee as the other way round', () => {
    expect(pair(swollen(0.06, 'above')).judged.uneven?.ratio).toBeLessThan(0.96);
  });

  it('is not said where posture, or a single reading in doubt, may be behind it', () => {
    const standing = { ...weighed, posture: 'standing' };
    expect(pair(swollen(0.05, 'below'), standing).judged.uneven).toBeUndefined();
    const slip = legOf(1, { at: (place) => (place === 16 ? 10 : 0) });
    expect(pair(slip).judged.uneven).toBeUndefined();
  });

  it('gives no answer where a part has fewer than three rungs', () => {
    const short = { ...legOf(), rungs: legOf().rungs.slice(0, 5) };
    const { series } = judgedOf(visitOf('2026-01-05', [short], weighed), visitOf('2026-03-05', [short], weighed));
    const [first, second] = series.visits;
    const change = first && second && limbChange(first, second, 'leg', DEFAULT_POLICY);
    if (!change || isNoAnswer(change)) throw new Error('no change');
    expect(unevenChange(change, undefined, DEFAULT_POLICY, 0)).toBeUndefined();
  });

  it('asks for the tape at first, for a review when the next visit shows the same', () => {
    const first = visitOf('2026-01-05', [legOf()], weighed);
    const second = visitOf('2026-03-05', [swollen(0.05, 'below')], weighed);
    const third = visitOf('2026-04-05', [swollen(0.055, 'below')], weighed);
    const [once] = promptsOf('uneven-limb', recordOf([first, second]), '2026-03-06');
    expect([once?.action, once?.title, once?.cause]).toEqual([
      'repeat-reading',
      'Consider measuring the left leg again: below the knee it is larger than the rest of it leads one to expect.',
      'left leg: unexplained',
    ]);
    expect(promptsOf('uneven-limb', recordOf([first, second, third]), '2026-04-06')[0]?.action).toBe('review');
    expect(promptsOf('uneven-limb', recordOf([first, visitOf('2026-03-05', [legOf(1.03)], weighed)]), '2026-03-06')).toEqual([]);
  });
});
