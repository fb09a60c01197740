import { describe, expect, it } from 'vitest';
import { readStudyPlan, readStudyRun } from '@/lib/forms/read-study';
import { isNoAnswer } from '@/lib/outcome';
import { measurerStudy } from '@/lib/service/measurer-study';
import { studyRanges } from '@/lib/service/study-ranges';
import { limitsOfStudy, reasonOfStudy, withoutStudy } from '@/lib/study/study-limits';
import { studyOrder } from '@/lib/study/study-order';
import type { StudyPlan, StudyRun } from '@/lib/study/study-plan';
import { STUDY_PLAN } from '@/lib/study/study-plan-schema';
import { studyResult } from '@/lib/study/study-result';
import { calendarDay } from '@/lib/units/calendar-day';

const PEOPLE = [
  { id: 'a', name: 'A' },
  { id: 'b', name: 'B' },
  { id: 'c', name: 'C' },
];
const TYPED = {
  ...{ people: 'P1, P2\nP3 P4,P5', 'left-leg': 'on', 'measurer-a': 'on', 'measurer-b': 'on', 'measurer-c': 'on' },
  ...{ repeats: '2', first: '10', step: '10', rungs: '5' },
};
function plan(): StudyPlan {
  const read = readStudyPlan(TYPED, PEOPLE, 'cm', 7);
  if (read.kind !== 'read') throw new Error(JSON.stringify(read.errors));
  return read.plan;
}

/** Volumes of five limbs by three measurers twice, ml: the worked example of the research, its figures by an independent script. */
const ML = [
  [2010, 2022, 2041, 2030, 2003, 2016],
  [1765, 1752, 1790, 1781, 1748, 1760],
  [2480, 2499, 2521, 2506, 2470, 2491],
  [1910, 1921, 1925, 1943, 1899, 1908],
  [2205, 2190, 2232, 2241, 2188, 2201],
];
/** A cylinder of 40 cm that holds so much: C = √(4πV/h). */
function runs(of: StudyPlan): StudyRun[] {
  return ML.flatMap((row, limb) =>
    row.map((ml, at) => {
      const cm = Math.sqrt((4 * Math.PI * ml) / 40).toFixed(5);
      const read = readStudyRun(Object.fromEntries(of.heights.map((_, rung) => [`g${rung}`, cm])), of);
      if (read.kind !== 'read') throw new Error('not read');
      return { turn: { limb, measurer: Math.floor(at / 2), repeat: at % 2 }, girths: read.girths };
    }),
  );
}

describe('a guided study', () => {
  it('draws an order of its own for each measurer: each limb once a round, none twice running, the same from the same seed', () => {
    const of = plan();
    expect(STUDY_PLAN.parse(of)).toEqual(of);
    for (let seed = 0; seed < 200; seed++) {
      const order = studyOrder({ ...of, seed }, 0);
      expect(
        order
          .slice(0, 5)
          .map(({ limb }) => limb)
          .sort(),
      ).toEqual([0, 1, 2, 3, 4]);
      expect(
        order
          .slice(5)
          .map(({ limb }) => limb)
          .sort(),
      ).toEqual([0, 1, 2, 3, 4]);
      expect(order.some(({ limb }, at) => at > 0 && order[at - 1]?.limb === limb)).toBe(false);
    }
    expect(studyOrder(of, 1)).toEqual(studyOrder(of, 1));
    expect(studyOrder(of, 1)).not.toEqual(studyOrder(of, 0).map((turn) => ({ ...turn, measurer: 1 })));
    // Every limb comes first about as often: 2000 draws, expectation 400, SD 18.
    const first = Array.from({ length: 2000 }, (_, seed) => studyOrder({ ...of, seed }, 0)[0]?.limb);
    for (let limb = 0; limb < 5; limb++) expect(Math.abs(first.filter((one) => one === limb).length - 400)).toBeLessThan(80);
  });

  it('gives the figures of the worked example from typed girths', () => {
    const of = plan();
    const result = studyResult(of, runs(of));
    if (isNoAnswer(result)) throw new Error(result.noAnswer);
    expect(result.clinic.study.between.smallestDifference).toBeCloseTo(52.77, 1);
    expect(result.clinic.study.within.sem).toBeCloseTo(8.686, 2);
    const b = result.measurers[1];
    expect(b?.again.differences).toHaveLength(5);
    // Measurer A: √(Σd²/2n) of the worked example, 10.0995.
    expect(result.measurers[0]?.within.sem).toBeCloseTo(10.0995, 2);
    // B against the mean of A and C, by hand: 2041 − 2006.5 … mean 34.7.
    expect(!b || isNoAnswer(b.others.agreement) ? 0 : b.others.agreement.bias).toBeCloseTo(
      (2041 - 2006.5 + (1790 - 1756.5) + (2521 - 2475) + (1925 - 1904.5) + (2232 - 2196.5)) / 5,
      1,
    );
    // Cylinders have no slope: tension and placing cannot be told apart, and are not kept.
    expect(limitsOfStudy(result.errors)).toEqual({});
  });

  it('has ranges as SciPy works them: Satterthwaite’s, and Williams and Tukey’s', () => {
    const study = measurerStudy(ML.map((row) => [row.slice(0, 2), row.slice(2, 4), row.slice(4)]));
    if (!study) throw new Error('no study');
    const { within, between, measurers, together } = studyRanges(study);
    expect([within.low, within.high].map((sd) => Number(sd.toFixed(4)))).toEqual([6.7509, 12.1844]);
    expect([between.low, between.high].map((sd) => Number(sd.toFixed(3)))).toEqual([10.795, 70.626]);
    expect([measurers.low, measurers.high].map((sd) => Number(sd.toFixed(3)))).toEqual([8.423, 107.821]);
    expect(together).toBeNull();
  });

  it('is no answer until all is typed', () => {
    const of = plan();
    expect(studyResult(of, runs(of).slice(1))).toEqual({ noAnswer: '29 of 30 tapings are typed. A study says something when all are.' });
  });

  it('refuses what makes no study, beside its box, and figures that are none', () => {
    const bad = readStudyPlan(
      { ...TYPED, people: 'P1 p1', 'measurer-b': undefined as never, repeats: '9', first: 'x' },
      PEOPLE.slice(0, 1),
      'cm',
      1,
    );
    expect(bad.kind === 'refused' ? Object.keys(bad.errors).sort() : []).toEqual(['first', 'measurers', 'people', 'repeats']);
    const run = readStudyRun({ g0: '24,5', g1: '', g2: '1', g3: '25', g4: '26 in' }, plan());
    expect(run.kind === 'refused' ? Object.keys(run.errors) : []).toEqual(['g1', 'g2', 'g4']);
  });

  it('sets limits that can be taken back', () => {
    const before = { lifeDays: 80, readingSdMm: 3.5 };
    const own = { lifeDays: 90, readingSdMm: 1.9, tensionOtherSd: 0.02 };
    expect(withoutStudy(own, before)).toEqual({ lifeDays: 90, readingSdMm: 3.5 });
    expect(reasonOfStudy(plan(), '1a2b3c4d-and-more', calendarDay('2026-11-18'))).toBe(
      'measured in this clinic on 18 Nov 2026, n = 30 tapings of 5 limbs by 3 measurers (study 1a2b3c4d)',
    );
  });
});
