import { describe, expect, it } from 'vitest';
import { isNoAnswer } from '@/lib/outcome';
import { equivalentGirth, frustum } from '@/lib/volume/frustum';
import { limbVolume } from '@/lib/volume/limb-volume';
import { spanVolume, tapedSpan } from '@/lib/volume/span-volume';
import { DEFAULT_TAPE_ERROR } from '@/lib/volume/tape-error';
import { seeded } from '@/tests/cohort/random';

const whole = (places: readonly number[], girths: readonly number[]) =>
  spanVolume(places, girths, tapedSpan(places) ?? { fromMm: 0, toMm: 0 });

/** Places of a ladder given as heights of its slices, mm. */
function stacked(heights: readonly number[]): number[] {
  const places = [0];
  for (const height of heights) places.push((places.at(-1) ?? 0) + height);
  return places;
}

describe('the frustum sum', () => {
  it('is a cylinder of radius 50 mm and 40 mm height: π·50²·40 mm³', () => {
    expect(frustum(40, 100 * Math.PI, 100 * Math.PI)).toBeCloseTo(Math.PI * 2500 * 40, 6);
  });

  it('is a cone to a point: h C²/12π, 954.9297 ml for 30 cm of girth and 40 cm of height', () => {
    // Closed form V = πr²h/3 with r = C/2π.
    expect(frustum(400, 0, 300) / 1000).toBeCloseTo((Math.PI * (300 / (2 * Math.PI)) ** 2 * 400) / 3 / 1000, 9);
    expect(frustum(400, 0, 300) / 1000).toBeCloseTo(954.9297, 4);
  });

  it('agrees with the published thigh of the Yeadon model to a millionth of a millilitre', () => {
    // Dembia, Moore & Hubbard 2014, F1000Research 3:223, sample "male1", sides averaged: thigh mass 8.5047753220376521 kg at 1.050 kg/l.
    const girths = [34.95, 49.45, 53.5, 55.63497972853946].map((cm) => cm * 10);
    const volume = whole(stacked([162.5, 162.5, 99]), girths) ?? 0;
    expect(volume / 1000).toBeCloseTo((8.504775322037652 / 1.05) * 1000, 6);
  });

  it.each([
    ['shank, sides averaged', [34.95, 35.05, 24.25], [13.75, 24.95], 3105.1433],
    ['shank, left', [35.1, 35.2, 25.5], [13.9, 25.1], 3222.1518],
    ['shank, right', [34.8, 34.9, 23.0], [13.6, 24.8], 2991.7246],
    ['upper arm, sides averaged', [28.75, 24.2, 22.85], [13.175, 13.175], 1317.0715],
  ])('agrees with the open implementation of the same model: %s', (_name, girthsCm, heightsCm, ml) => {
    // yeadon 1.x (BSD), circular levels only, mass over density; printed to 1e-4 ml.
    const volume = whole(
      stacked(heightsCm.map((cm) => cm * 10)),
      girthsCm.map((cm) => cm * 10),
    );
    expect((volume ?? 0) / 1000).toBeCloseTo(ml, 4);
  });

  it('is the same in inches: two thigh slices of the same model are 5753.6743 ml by 16.387064 ml a cubic inch', () => {
    const inches = [53.5, 49.45, 34.95].map((cm) => cm / 2.54);
    const height = 16.25 / 2.54;
    const cubicInches = (one: number, other: number) => (height * (one * one + one * other + other * other)) / (12 * Math.PI);
    const byInches = (cubicInches(inches[0] ?? 0, inches[1] ?? 0) + cubicInches(inches[1] ?? 0, inches[2] ?? 0)) * 16.387064;
    const volume = whole(
      stacked([height * 25.4, height * 25.4]),
      inches.map((one) => one * 25.4),
    );
    expect((volume ?? 0) / 1000).toBeCloseTo(byInches, 9);
    expect(byInches).toBeCloseTo(5753.6743, 4);
  });

  it('agrees with (mean of end areas + 2 × area of the mean girth) / 3 on 20,000 random ladders', () => {
    // Identity: mean-area discs exceed the frustum by h(C₁−C₂)²/24π and mean-girth discs fall short of it by h(C₁−C₂)²/48π.
    const random = seeded(20_000);
    let worst = 0;
    for (let ladder = 0; ladder < 20_000; ladder++) {
      const rungs = 2 + Math.floor(28 * random.uniform());
      const heights = Array.from({ length: rungs - 1 }, () => 5 + 80 * random.uniform());
      const girths = Array.from({ length: rungs }, () => 80 + 600 * random.uniform());
      const places = stacked(heights);
      let byDiscs = 0;
      heights.forEach((height, slice) => {
        const [one, other] = [girths[slice] as number, girths[slice + 1] as number];
        const meanArea = (height * (one ** 2 + other ** 2)) / (8 * Math.PI);
        const meanGirth = (height * ((one + other) / 2) ** 2) / (4 * Math.PI);
        byDiscs += (meanArea + 2 * meanGirth) / 3;
      });
      const reversed = whole(places.map((place) => (places.at(-1) ?? 0) - place).reverse(), [...girths].reverse());
      worst = Math.max(worst, Math.abs((whole(places, girths) ?? 0) / byDiscs - 1), Math.abs((reversed ?? 0) / byDiscs - 1));
    }
    expect(worst).toBeLessThan(1e-12);
  });

  it('agrees with slices of a hundredth of a millimetre of radius, cut anywhere inside the ladder', () => {
    const places = [-30, 10, 55, 140, 210];
    const girths = [230, 215, 290, 350, 310];
    const span = { fromMm: -12.5, toMm: 181.25 };
    const slices = 200_000;
    let sum = 0;
    for (let slice = 0; slice < slices; slice++) {
      const at = span.fromMm + ((slice + 0.5) * (span.toMm - span.fromMm)) / slices;
      const above = places.findIndex((place) => place > at);
      const share = (at - (places[above - 1] as number)) / ((places[above] as number) - (places[above - 1] as number));
      const girth = (girths[above - 1] as number) * (1 - share) + (girths[above] as number) * share;
      sum += (girth ** 2 / (4 * Math.PI)) * ((span.toMm - span.fromMm) / slices);
    }
    expect((spanVolume(places, girths, span) ?? 0) / sum).toBeCloseTo(1, 9);
  });

  it('gives the equivalent girth of its own volume: a cylinder of that girth and length has it', () => {
    const volume = whole([0, 40, 95], [210, 240, 300]) ?? 0;
    const girth = equivalentGirth(volume, 95);
    expect(frustum(95, girth, girth)).toBeCloseTo(volume, 6);
  });
});

describe('a limb volume', () => {
  const line = (places: readonly number[], girths: readonly number[]) => ({ placesMm: places, girthsMm: girths, landmarks: new Map() });
  const volumeOf = (places: readonly number[], girths: readonly number[], within?: { fromMm: number; toMm: number }) =>
    limbVolume(line(places, girths), DEFAULT_TAPE_ERROR, 0.004, within);

  it('is refused by name for no girth and for one', () => {
    expect(volumeOf([], [])).toEqual({ noAnswer: 'No girths were measured.' });
    expect(volumeOf([40], [200])).toEqual({ noAnswer: 'One girth has no volume; a second place is needed.' });
  });

  it('is refused for a stretch of no length and for one past the rungs', () => {
    expect(volumeOf([0, 40], [200, 210], { fromMm: 20, toMm: 20 })).toEqual({ noAnswer: 'The stretch reaches past the measured rungs.' });
    expect(volumeOf([0, 40], [200, 210], { fromMm: 0, toMm: 41 })).toEqual({ noAnswer: 'The stretch reaches past the measured rungs.' });
  });

  it('of two girths is one frustum, with its span, length and mean cross-section', () => {
    const volume = volumeOf([-40, 0], [300, 200]);
    if (isNoAnswer(volume)) throw new Error(volume.noAnswer);
    expect(volume.volumeMl).toBeCloseTo((40 * (90_000 + 60_000 + 40_000)) / (12 * Math.PI) / 1000, 9);
    expect(volume.span).toEqual({ fromMm: -40, toMm: 0 });
    expect(volume.meanCrossSectionMm2 * volume.lengthMm).toBeCloseTo(volume.volumeMl * 1000, 6);
  });
});
