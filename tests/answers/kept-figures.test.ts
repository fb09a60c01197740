import { describe, expect, it } from 'vitest';
import { cubicAt, monotoneCubic } from '@/lib/alignment/monotone-cubic';
import { bodyMassIndex } from '@/lib/growth/body-mass-index';
import { centileOf, showCentile } from '@/lib/growth/centile';
import { exponentsAt } from '@/lib/growth/girth-exponents';
import { zDrift } from '@/lib/growth/projection-error';
import { valueAtZ, zScore } from '@/lib/growth/z-score';
import { girthAt, girthNear, rungBelow } from '@/lib/ladder/girth-at';
import { akaikePenalty } from '@/lib/statistics/akaike-penalty';
import { invertSymmetric } from '@/lib/statistics/invert-symmetric';
import { exactKendallTail } from '@/lib/statistics/kendall-null';
import { lineOfBestFit } from '@/lib/statistics/line-of-best-fit';
import { kendallS, kendallVariance, mannKendall } from '@/lib/statistics/mann-kendall';
import { median } from '@/lib/statistics/median';
import { cumulativeNormal, normalReach } from '@/lib/statistics/normal';
import { chiSquarePoint, fPoint } from '@/lib/statistics/tail-points';
import { theilSen } from '@/lib/statistics/theil-sen';
import { ageInYears, showAge } from '@/lib/units/age';
import { addDays, addMonths, calendarDay, daysBetween, mondayOf, readDay, showDay, showShortWeekday } from '@/lib/units/calendar-day';
import { exactText } from '@/lib/units/exact-text';
import { echoMass, readMass, showMass } from '@/lib/units/mass';
import { readLength } from '@/lib/units/read-length';
import { readNumber } from '@/lib/units/read-number';
import { echoLength, showLength, showLengthChange, showTapedLength } from '@/lib/units/show-length';
import { showVolume } from '@/lib/units/volume';
import { excessReduction, excessVolume, relativeVolumeChange, weightAdjustedChange } from '@/lib/volume/excess';
import { limbVolume } from '@/lib/volume/limb-volume';
import { spanVolume, tapedSpan } from '@/lib/volume/span-volume';
import { readingGain, volumeGradient } from '@/lib/volume/volume-gradient';
import { type Random, seeded } from '../cohort/random';
import { digest } from './digest';

const UNITS = ['in', 'cm'] as const;
const TAPE = { readingMm: 2.8, tensionSameMeasurer: 0.004, tensionOtherMeasurer: 0.01, placementMm: 5 };

const upTo = (count: number) => Array.from({ length: count }, (_, index) => index);

/** Figures as people type them, right and wrong. */
const TEXTS = [
  '7',
  '7.5',
  '7,25',
  '7 3/4',
  '7¾',
  '7-1/8',
  '3/4',
  '12 15/16',
  ' 8 ',
  '8"',
  '8 in',
  '20 cm',
  '0',
  '000',
  '1.234567',
  '1,000',
  '1.000.5',
  '9 16/16',
].concat([
  '7 3/0',
  '-4',
  '−4',
  'abc',
  '',
  '7 and 1/2',
  '7 & 3/8',
  '２',
  '1e3',
  '7 3 4',
  '5 ft 2',
  '5\'2"',
  '999999',
  '12345678901234567890',
  '7..5',
  '.5',
  '5.',
  '1/3',
  '2 1/7',
]);

/** Places that rise and girths on them; now and then two alike, or too few. */
function rungsOf(random: Random) {
  const count = Math.floor(random.uniform() * 9);
  let place = random.uniform() * 40;
  const placesMm = upTo(count).map(() => (place += 5 + random.uniform() * 60));
  return { placesMm, girthsMm: placesMm.map(() => 150 + Math.round(random.uniform() * 30) * 10), landmarks: new Map() };
}

/** Times and values with ties, short and long. */
function seriesOf(random: Random) {
  const count = Math.floor(random.uniform() * 14);
  const step = random.pick([1, 7, 30]);
  return {
    times: upTo(count).map((one) => (one - (random.uniform() < 0.15 ? 1 : 0)) * step),
    values: upTo(count).map(() => Math.round(random.normal(6))),
  };
}

const FIGURES: Readonly<Record<string, (random: Random) => unknown>> = {
  'texts of lengths': () => TEXTS.map((text) => UNITS.map((unit) => [readLength(text, unit), readLength(text, unit, true)])),
  'texts of numbers, masses and days': () => [
    TEXTS.map((text) => [readNumber(text), readMass(text, 'kg'), readMass(`${text} lb`, 'kg'), readMass(text, 'lb')]),
    ['2026-02-29', '2024-02-29', '2026-2-1', '1899-12-31', '', '2026-13-01', '2026-12-31'].map(readDay),
  ],
  'lengths in words': () =>
    upTo(160).map((one) =>
      UNITS.map((unit) =>
        [one * 3.97, -one * 1.3].map((mm) => [
          showLength(mm, unit),
          showLength(mm, unit, 16),
          showTapedLength(mm, unit),
          showLengthChange(mm, unit),
          echoLength(Math.abs(mm), unit),
          exactText(Math.round(Math.abs(mm) * 1e6), unit),
        ]),
      ),
    ),
  'masses, volumes and centiles in words': () =>
    upTo(80).map((one) => {
      const mass = readMass(String(one * 1.7), 'kg');
      return [
        showMass(one * 0.77, 'kg'),
        showMass(one * 0.77, 'lb'),
        mass.kind === 'read' && echoMass(mass.value),
        showVolume(one * one * 7.3),
        centileOf(one / 16 - 2.5),
        showCentile(one * 1.25),
      ];
    }),
  days: () =>
    upTo(60).map((one) => {
      const day = addDays(calendarDay('2023-12-20'), one * 13);
      return [
        day,
        addMonths(day, one - 30),
        mondayOf(day),
        showDay(day),
        showShortWeekday(day),
        daysBetween(day, calendarDay('2025-01-31')),
        ageInYears(calendarDay('2020-02-29'), day),
        showAge(addDays(day, -one * 100), day),
      ];
    }),
  'points of distributions': () =>
    upTo(39).map((one) => [
      cumulativeNormal(one / 5 - 4),
      normalReach((one + 1) / 41),
      [1, 2, 5, 30].map((df) => [chiSquarePoint((one + 1) / 41, df), fPoint((one + 1) / 41, df, 7)]),
      akaikePenalty(one % 7, one),
    ]),
  'lines and trends': (random) =>
    upTo(60).map(() => {
      const { times, values } = seriesOf(random);
      return [
        theilSen(times, values),
        mannKendall(times, values),
        kendallS(times, values),
        kendallVariance(times, values),
        exactKendallTail(times.slice(0, 8), values.slice(0, 8), Math.abs(kendallS(times.slice(0, 8), values.slice(0, 8)))),
        lineOfBestFit(times, values, 2, 1),
        lineOfBestFit(
          times,
          values,
          values.map((_, at) => 1 + (at % 3)),
          1.5,
        ),
        values.length > 0 && median(values),
      ];
    }),
  'inverses of matrices': (random) =>
    upTo(20).map((one) => {
      const size = 1 + (one % 4);
      const half = upTo(size).map(() => upTo(size).map(() => random.normal(1)));
      const product = half.map((row) => half.map((other) => row.reduce((sum, value, at) => sum + value * (other[at] as number), 0)));
      return [invertSymmetric(product), invertSymmetric(product.map((row) => row.map(() => one % 3)))];
    }),
  'volumes of a stretch': (random) =>
    upTo(60).map(() => {
      const rungs = rungsOf(random);
      const [from = 0, to = 0] = [rungs.placesMm[0], rungs.placesMm.at(-1)];
      const span = { fromMm: from + random.pick([0, 11, -4]), toMm: to - random.pick([0, 23, -4]) };
      const line = rungs as never;
      return [
        tapedSpan(rungs.placesMm),
        spanVolume(rungs.placesMm, rungs.girthsMm, span),
        limbVolume(line, TAPE, 0.004, span),
        limbVolume(line, TAPE, 0.004),
        rungs.placesMm.length > 1 &&
          span.toMm > span.fromMm &&
          span.fromMm >= from &&
          span.toMm <= to && [volumeGradient(rungs.placesMm, rungs.girthsMm, span), readingGain(rungs.placesMm, rungs.girthsMm, span)],
      ];
    }),
  'a limb against the other': (random) =>
    upTo(40).map(() => {
      const [one, other] = [rungsOf(random), rungsOf(random)];
      const span = { fromMm: 60 + random.uniform() * 40, toMm: 110 + random.uniform() * 90 };
      const volumes = () => ({ affected: 900 + random.normal(90), other: 850 + random.normal(60) });
      const [then, now] = [volumes(), volumes()];
      return [
        excessVolume(one, other, span, TAPE, { affected: 0.004, other: 0.004, common: random.uniform() < 0.5 }),
        excessReduction(then as never, now as never),
        relativeVolumeChange(then, now),
        weightAdjustedChange(1 + random.normal(0.1), 1 + random.normal(0.1)),
      ];
    }),
  'girths between rungs': (random) =>
    upTo(40).map(() => {
      const { placesMm, girthsMm } = rungsOf(random);
      const at = [...placesMm, ...upTo(8).map(() => random.uniform() * 400)];
      const cubic = placesMm.length > 1 ? monotoneCubic(placesMm, girthsMm) : undefined;
      return at.map((place) => [
        rungBelow(placesMm, place),
        girthAt(placesMm, girthsMm, place),
        girthNear(placesMm, girthsMm, place),
        cubic && { ...cubicAt(cubic, place, { girthMm: 0, slope: 0 } as never) },
      ]);
    }),
  'bodies and growth': () =>
    upTo(48).map((one) =>
      (['F', 'M'] as const)
        .map((sex) =>
          (['cdc-2000', 'who'] as const).map((table) =>
            (['height', 'weight'] as const).map((measure) => [
              zScore(table, measure, sex, one * 160, measure === 'height' ? 50 + one * 2.5 : 3 + one * 1.6),
              valueAtZ(table, measure, sex, one * 160, one / 8 - 3),
              zDrift(measure, sex, one * 160, one * 9),
            ]),
          ),
        )
        .concat([
          [
            exponentsAt('leg', one % 2 === 0, one / 16),
            exponentsAt('arm', one % 2 === 0, one / 16),
            bodyMassIndex(one, 50 + one * 3),
          ] as never,
        ]),
    ),
};

/** The same net under the plain functions of the rooms that compute: the figures they give on a grid, right and odd arguments alike. */
describe('figures as they were kept', () => {
  it.each(Object.keys(FIGURES))('%s', (name) => {
    expect(digest(FIGURES[name]?.(seeded(name.length * 101)))).toMatchSnapshot();
  });
});
