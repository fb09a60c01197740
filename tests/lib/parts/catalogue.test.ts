import { describe, expect, it } from 'vitest';
import { MEASURES, measureOf, measuresOfPart } from '@/lib/parts/catalogue';
import { expectedGrowth } from '@/lib/parts/expected-growth';
import { CHILD_AGES, type UsualRange } from '@/lib/parts/measure';
import { CHILD_COLUMNS, surveyChildren } from '@/tests/body-model/children';
import { surveyPeople } from '@/tests/body-model/survey';
import { MEASURED } from '@/tests/body-model/survey-record';

/** Ids that issue 22 asks for, in its Command line section. */
const ASKED_FOR =
  'hand-girth, hand-breadth, hand-length, palm-length, wrist-girth, foot-length, ball-girth, ball-length, foot-breadth, heel-ankle-girth, head-girth, neck-girth, neck-base-girth, shoulder-girth, chest-girth, waist-girth-navel, waist-height-navel, hip-girth, crotch-height, crotch-length, trunk-loop, waist-back-length, sitting-height'.split(
    ', ',
  );

/** The value below which a share of sorted figures lies, linear between ranks (Hyndman and Fan 1996, type 7). */
function percentile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((one, other) => one - other);
  const rank = share * (sorted.length - 1);
  const low = sorted[Math.floor(rank)] as number;
  return low + (rank - Math.floor(rank)) * ((sorted[Math.ceil(rank)] as number) - low);
}

function expectRange(range: UsualRange, values: readonly number[], withinMm: number): void {
  [0.01, 0.5, 0.99].forEach((share, place) => {
    expect(Math.abs((range[place] as number) - percentile(values, share))).toBeLessThanOrEqual(withinMm);
  });
}

describe('the catalogue of measures', () => {
  it('has every id that was asked for, each once, with a definition, a source and a reading error', () => {
    expect(ASKED_FOR.filter((id) => !measureOf(id))).toEqual([]);
    expect(new Set(MEASURES.map(({ id }) => id)).size).toBe(MEASURES.length);
    for (const { id, name, definition, source, tapeSdMm, growth } of MEASURES) {
      expect(id).toMatch(/^[a-z]+(-[a-z0-9]+)*$/);
      expect(name).not.toBe('');
      expect(definition).toMatch(/\.$/);
      expect(source.length).toBeGreaterThan(8);
      expect(tapeSdMm).toBeGreaterThan(0);
      expect(growth).toMatch(/\.$/);
    }
  });

  it('knows a middling figure of each, from a survey or from memory, never both', () => {
    expect(MEASURES.filter(({ usualMm, roughMm }) => (usualMm === null) === (roughMm === null)).map(({ id }) => id)).toEqual([]);
  });

  it('has fingers and toes, and the neck under trunk and head', () => {
    for (const digit of ['thumb', 'index-finger', 'middle-finger', 'ring-finger', 'little-finger'])
      for (const what of ['length', 'base-girth', 'joint-girth', 'tip-girth']) expect(measureOf(`${digit}-${what}`)?.part).toBe('hand');
    for (const toe of ['great-toe', 'second-toe', 'third-toe', 'fourth-toe', 'little-toe'])
      for (const what of ['length', 'girth']) expect(measureOf(`${toe}-${what}`)?.part).toBe('foot');
    for (const part of ['trunk', 'head'] as const) expect(measuresOfPart(part).map(({ id }) => id)).toContain('neck-girth');
  });

  /* ANSUR II 2012, tests/reference/body: percentiles counted anew from the rows; printed figures of the research page are rounded to 1 mm. */
  it.each(['M', 'F'] as const)('usual ranges of grown people are those of the survey (%s)', (sex) => {
    const people = surveyPeople(sex);
    expect(people.length).toBeGreaterThan(1400);
    for (const variable of MEASURED) {
      const usual = measureOf(variable)?.usualMm;
      if (!usual) throw new Error(`no range of ${variable}`);
      expectRange(
        usual[sex],
        people.map(({ of }) => of.get(variable) as number),
        1.01,
      );
    }
  });

  /* Snyder 1977, tests/reference/body: the same, by age band. */
  it.each(Object.entries(CHILD_COLUMNS))('usual ranges of children are those of the survey: %s', (id, column) => {
    const bands = measureOf(id)?.childrenMm;
    const edges = [2, 3.5, 5.5, 8.5, 11.5, 14.5, 17.5];
    expect(bands?.length).toBe(CHILD_AGES.length);
    bands?.forEach((range, band) => {
      const within = surveyChildren().filter(
        ({ ageYears, cells }) => ageYears >= (edges[band] as number) && ageYears < (edges[band + 1] as number) && cells[column] !== '',
      );
      expectRange(
        range,
        within.map(({ cells }) => Number(cells[column])),
        1.01,
      );
    });
  });
});

describe('growth of a measure', () => {
  const foot = measureOf('foot-length');
  if (!foot) throw new Error('no foot length');

  it('adds what the years between add: the research page’s 11 mm a year for a boy’s foot from 2 to 5', () => {
    expect(expectedGrowth(foot, 'M', 4, 4.5, 166).ratio).toBeCloseTo((166 + 5.5) / 166, 9);
    expect(expectedGrowth(foot, 'M', 4.5, 5.5, 170).ratio).toBeCloseTo((170 + 5.5 + 4.7) / 170, 9);
    expect(expectedGrowth(foot, 'X', 4, 5, 166).ratio).toBeCloseTo((166 + 11.3) / 166, 9);
  });

  it('is none for the grown and between equal days, and unknown where no figure is at hand', () => {
    expect(expectedGrowth(foot, 'F', 20, 30, 246)).toEqual({ ratio: 1, sd: 0, known: true });
    expect(expectedGrowth(foot, 'F', 6, 6, 180)).toEqual({ ratio: 1, sd: 0, known: true });
    expect(expectedGrowth(foot, 'F', 1, 1.5, 110).known).toBe(false);
    const palm = measureOf('palm-length');
    expect(palm && expectedGrowth(palm, 'F', 6, 7, 80).known).toBe(false);
  });
});
