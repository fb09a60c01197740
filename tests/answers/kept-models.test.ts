import { describe, expect, it } from 'vitest';
import { alignLadders, movedBy, toEarlier, toLater } from '@/lib/alignment/align-ladders';
import { monotoneCubic } from '@/lib/alignment/monotone-cubic';
import { type LineAtVisit, placeLandmarks } from '@/lib/alignment/place-landmarks';
import { checkShift } from '@/lib/alignment/shift-check';
import { bestStarts, fitShift, type ShiftData } from '@/lib/alignment/shift-fit';
import { fitModels } from '@/lib/alignment/shift-models';
import type { CourseTerms, VisitLook } from '@/lib/course-model/course';
import { errorScaleRange, learnErrorScale } from '@/lib/course-model/error-scale';
import { followCourse } from '@/lib/course-model/follow-course';
import { readChange, smallestChangeSaid } from '@/lib/course-model/read-change';
import { smoothLevels } from '@/lib/course-model/smooth-levels';
import { LIMBS, type LimbKind } from '@/lib/ladder/limb';
import { type Random, seeded } from '../cohort/random';
import { digest } from './digest';

const upTo = (count: number) => Array.from({ length: count }, (_, index) => index);

/** Looks at one or two limbs in one or two parts over some visits: parts not taped, days with and without a body, a step somewhere. */
function looksOf(random: Random, parts: readonly number[]): VisitLook[] {
  const count = 2 + Math.floor(random.uniform() * 7);
  const [onset, step] = [1 + Math.floor(random.uniform() * count), random.pick([0, 0.03, -0.05, 0.1])];
  const body = random.uniform() < 0.6;
  let years = 0;
  return upTo(count).map((visit) => {
    const onOneDay = visit > 0 && random.uniform() < 0.1;
    if (visit > 0 && !onOneDay) years += 0.05 + random.uniform() * 0.4;
    const limbs = parts.map((of, limb) => {
      const swollen = limb === 0 && visit >= onset ? step : 0;
      const covariance = upTo(of).map((row) => upTo(of).map((column) => (row === column ? 1.6e-4 : 4e-5)));
      return {
        limb,
        girths: upTo(of).map((part) => (random.uniform() < 0.12 ? null : (part === 0 ? swollen : swollen / 3) + random.normal(0.012))),
        covariance,
      };
    });
    return {
      years,
      dayVariance: random.pick([0, 1e-5, 2e-4]),
      habits: random.uniform() < 0.5 ? [Math.floor(random.uniform() * 2)] : [],
      lnWeight: body ? random.normal(0.04) : 0,
      lnHeight: body && random.uniform() < 0.7 ? 0.03 * years : 0,
      mayStep: visit > 0 && !onOneDay,
      limbs: limbs.filter(({ limb }) => limb === 0 || random.uniform() < 0.85),
    };
  });
}

function termsOf(random: Random, parts: readonly number[]): CourseTerms {
  const some = (value: number) => value * random.pick([0.5, 1, 2]);
  return {
    parts,
    habits: [some(3e-5), some(1e-4)],
    lnWeightVariance: some(0.02),
    lnHeightVariance: some(0.05),
    commonDrift: some(4e-5),
    ownDrift: some(2e-5),
    partDrift: some(1e-5),
    stepVariance: some(0.0025),
    stepOdds: random.pick([0.1, 0.25]),
    mostSteps: random.pick([1, 2, 3]),
    kept: random.pick([3, 8]),
  };
}

function courseOf(random: Random) {
  const parts = random.pick([[1], [2], [2, 1], [2, 2], [1, 1]]);
  const [looks, terms] = [looksOf(random, parts), termsOf(random, parts)];
  const course = followCourse(looks, terms);
  const newest = course.at(-1);
  const share = 0.2 + random.uniform() * 0.5;
  return [
    course,
    followCourse(looks, terms, true).at(-1),
    newest && upTo(looks.length).map((from) => [readChange(newest, from, share), readChange(newest, from, share, looks.length - 2)]),
    newest && [
      smallestChangeSaid(newest, terms.stepVariance, terms.stepOdds, 0.8),
      smallestChangeSaid(newest, terms.stepVariance, terms.stepOdds, 0.99),
    ],
    newest && smoothLevels(looks, (visit) => share + visit / 50, terms, newest.histories),
  ];
}

/** A leg-like line of girths from a place on, at steps, read a little off. */
function lineOf(random: Random, startMm: number, stepMm: number, factor: number) {
  const placesMm = upTo(6 + Math.floor(random.uniform() * 10)).map((one) => startMm + one * stepMm);
  const girth = (place: number) => 220 + 0.25 * place + 40 * Math.sin(place / 90);
  return { placesMm, girthsMm: placesMm.map((place) => factor * girth(place) + random.normal(2.5)) };
}

function alignedPair(random: Random) {
  const limb: LimbKind = random.pick(['leg', 'arm']);
  const stepMm = random.pick([38.1, 40, 25]);
  const moved = random.pick([0, 0, 20, -25, stepMm, -stepMm, 60]);
  const [distal, middle, proximal] = LIMBS[limb].landmarks;
  const visit = (day: number, offMm: number, factor: number): LineAtVisit => {
    const marks = [
      [distal, -offMm],
      [middle, 290 - offMm],
      [proximal, 600 - offMm],
    ] as const;
    const landmarks = new Map(
      marks.filter(([id]) => id !== middle || random.uniform() < 0.7).map(([id, at]) => [id, at + random.normal(4)]),
    );
    const line = { ...lineOf(random, stepMm, stepMm, factor), landmarks } as unknown as LineAtVisit['line'];
    return {
      day,
      line,
      bodyHeightMm: random.pick([undefined, 1200 + day / 4]),
      zero: random.pick([distal, ' Above the  scar ', 'above the scar']),
    };
  };
  const visits = [visit(0, 0, 1), visit(90, 0, 1), visit(200, moved, random.pick([1, 1, 1.04, 0.95]))];
  const placed = placeLandmarks(visits, limb, random.uniform() < 0.4, 5);
  const [earlier, later] = [placed[0], placed.at(-1)];
  const alignment =
    earlier && later && alignLadders(earlier, later, limb, { ratio: random.pick([1, 1.02]), sd: random.pick([1e-4, 0.015]) });
  if (!earlier || !later || !alignment) return placed;
  const check = checkShift(earlier.line, later.line, alignment, () => 1, 2.8, 5, 15);
  const there = [0, 150, 400, 700].map((place) => [
    toLater(alignment, place),
    toEarlier(alignment, place),
    toLater(movedBy(alignment, 12), place),
  ]);
  return [placed, alignment, check, there];
}

function shiftOf(random: Random) {
  const stepMm = random.pick([38.1, 12, 50]);
  const line = lineOf(random, 0, stepMm, 1);
  const shiftMm = random.pick([0, 8, stepMm, -stepMm, 3, 120]);
  const cubic = monotoneCubic(line.placesMm, line.girthsMm);
  const inner = line.placesMm.slice(1, -1);
  const wild = random.uniform() < 0.3 ? 30 : 0;
  const data: ShiftData = {
    earlier: cubic,
    placesMm: inner,
    girthsMm: inner.map(
      (place, at) =>
        random.pick([1, 1.03]) * (220 + 0.25 * (place + shiftMm) + 40 * Math.sin((place + shiftMm) / 90)) +
        random.normal(2) +
        (at === 2 ? wild : 0),
    ),
    sureness: inner.map(() => 1 / random.pick([3, 4, 6])),
  };
  const alignment = {
    earlierMm: [0, 300],
    laterMm: [0, 305],
    covariance: [
      [25, 5],
      [5, 25],
    ],
    ratio: 1,
    ratioSd: 0.01,
    zeroStepMm: random.pick([0, 6]),
    inferred: false,
    strain: 1,
  };
  const prior = { centreMm: 4, varianceMm2: 60, cost: 6 };
  return [
    fitModels(data, alignment, 5, [stepMm, 3, 900]),
    fitModels(data, { ...alignment, earlierMm: [0], laterMm: [0], covariance: [[25]] }, 5, [stepMm, stepMm + 2]),
    [true, false].flatMap((one) => [true, false].map((other) => fitShift(data, prior, 5, one, other))),
    bestStarts(data, prior, 80, 5),
  ];
}

function scaleOf(random: Random) {
  const limbs = upTo(Math.floor(random.uniform() * 60)).map((one) => ({
    degrees: one % 7,
    strain: (one % 7) * (0.3 + 2 * random.uniform()),
  }));
  return [learnErrorScale(limbs, 1.1), errorScaleRange(limbs, 1.1)];
}

/** The net under the two models of the engine by themselves, on looks and lines that no limb need have had. */
describe('models as they were kept', () => {
  it.each([
    ['courses of looks', courseOf, 150],
    ['lines put on each other', alignedPair, 200],
    ['moved zeros', shiftOf, 200],
    ['scales of error', scaleOf, 40],
  ] as const)('%s', (name, of, count) => {
    const random = seeded(name.length * 313);
    expect(
      upTo(count)
        .map(() => digest(of(random)))
        .join('\n'),
    ).toMatchSnapshot();
  });
});
