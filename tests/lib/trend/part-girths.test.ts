import { describe, expect, it } from 'vitest';
import { isNoAnswer } from '@/lib/outcome';
import { reasonsInWords } from '@/lib/prompts/reasons-in-words';
import { divideLimb } from '@/lib/trend/part-girths';
import { ladderOf, recordOf, visitOf } from '../made-up-ladder';
import { analysed, LEG_CM, legOf } from '../prompts/made-up-piece';

const RUNGS = LEG_CM.map((girth, rung): [number, number] => [4 * (rung + 1), girth]);
const dividedAt = (girths: readonly (readonly [number, number])[], knee?: number) => {
  const ladder = ladderOf({ girths, landmarks: { ...(knee ? { knee } : {}) } });
  const first = analysed(recordOf([visitOf('2026-01-05', [ladder])]), '2026-01-06').limbs[0]?.series.visits[0];
  if (!first) throw new Error('no visit');
  const { at, partOf } = divideLimb(first);
  return { at, far: partOf.filter((part) => part === 0).length, near: partOf.filter((part) => part === 1).length };
};

describe('where the parts of a limb meet', () => {
  it('is the knee, else half-way between the first place and the last: (40 + 600) / 2', () => {
    expect(dividedAt(RUNGS, 28)).toEqual({ at: 'knee', far: 6, near: 9 });
    expect(dividedAt(RUNGS)).toEqual({ at: null, far: 7, near: 8 });
  });
  it('is half-way too where the knee lies outside what was taped, and nowhere on a short ladder', () => {
    expect(dividedAt(RUNGS.slice(7), 28)).toEqual({ at: null, far: 4, near: 4 });
    expect(dividedAt(RUNGS.slice(0, 3))).toEqual({ at: undefined, far: 3, near: 0 });
  });
});

describe('what a change is reasoned with', () => {
  const judged = (now: object, before: object = {}) => {
    const visits = [visitOf('2026-01-05', [legOf()], before), visitOf('2026-04-05', [legOf(1.05)], now)];
    const since = analysed(recordOf(visits), '2026-04-06').limbs[0]?.visits[1]?.sinceFirst;
    if (!since || isNoAnswer(since)) throw new Error('no change');
    return since;
  };
  it('says girth and volume as changes: 5 % more girth is 10.25 % more volume', () => {
    const said = reasonsInWords(judged({})).join(' ');
    expect(said).toMatch(/^Volume \+10\.\d\u202f% from 5 Jan 2026 to 5 Apr 2026/);
    expect(said).toMatch(/Girth \+5\.\d\u202f%, expected [+−]?[01]\.\d\u202f%/);
    expect(said).not.toContain('inferred');
  });
  it('names what is not on record, and only that', () => {
    expect(judged({}).notOnRecord).toEqual([]);
    expect(judged({ posture: null }).notOnRecord).toEqual(['posture']);
    expect(judged({}, { time: null }).notOnRecord).toEqual(['time-of-day']);
  });
});
