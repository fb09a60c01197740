import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isNoAnswer } from '@/lib/outcome';
import { handVolume } from '@/lib/parts/hand-volume';
import { ellipseArea, ellipseAreaOf, sectionFrustum } from '@/lib/volume/elliptic-frustum';
import { endCap } from '@/lib/volume/end-cap';
import { crossSection, frustum } from '@/lib/volume/frustum';

/*
 * Check values: the project's research page on hand, foot, trunk, head and residual limb, section 2, computed there by a script of its own
 * (cm and ml, digits as printed).
 */
const DIGITS = {
  thumb: [6.0, 6.8, 5.6],
  'index-finger': [7.0, 6.4, 5.0],
  'middle-finger': [7.8, 6.5, 5.0],
  'ring-finger': [7.2, 6.0, 4.7],
  'little-finger': [5.8, 5.3, 4.2],
} as const;
const HAND = new Map<string, number>([
  ['palm-length', 90],
  ['wrist-girth', 160],
  ['hand-girth', 200],
  ...Object.entries(DIGITS).flatMap(([digit, [length, base, tip]]): [string, number][] => [
    [`${digit}-length`, 10 * length],
    [`${digit}-base-girth`, 10 * base],
    [`${digit}-tip-girth`, 10 * tip],
  ]),
]);

describe('volume of a hand', () => {
  it('palm, digits and whole to the printed digits, said to be a shape index', () => {
    const found = handVolume(HAND);
    if (isNoAnswer(found)) throw new Error(found.noAnswer);
    expect(found.palmMl.toFixed(4)).toBe('233.0028');
    expect(found.digitsMl.toFixed(4)).toBe('84.1792');
    expect(found.wholeMl.toFixed(4)).toBe('317.1820');
    expect(found.words).toMatch(/^Shape index/);
    expect(found.words).toMatch(/never add it to an arm/);
  });

  it.each([
    ['thumb', '18.4110'],
    ['index-finger', '18.1893'],
    ['middle-finger', '20.6384'],
    ['ring-finger', '16.4802'],
    ['little-finger', '10.4602'],
  ] as const)('%s', (digit, printed) => {
    const [length, base, tip] = DIGITS[digit];
    expect((frustum(10 * length, 10 * base, 10 * tip) / 1000).toFixed(4)).toBe(printed);
  });

  it('there is none, and what is missing is named, where one measure was not taken', () => {
    const without = new Map(HAND);
    without.delete('ring-finger-tip-girth');
    expect(handVolume(without)).toEqual({ noAnswer: 'A volume of the hand needs ring-finger-tip-girth too.' });
  });
});

describe('flat sections', () => {
  it('elliptic palm to the printed digits', () => {
    const [wrist, knuckles] = [ellipseArea(56, 40), ellipseArea(84, 28)];
    expect((wrist / 100).toFixed(4)).toBe('17.5929');
    expect((knuckles / 100).toFixed(4)).toBe('18.4726');
    expect((sectionFrustum(90, wrist, knuckles) / 1000).toFixed(4)).toBe('162.2786');
  });

  it('a palm of girth 21.2 and breadth 8.8 cm: circle 35.8, ellipse 29.8 cm² (the page’s medians)', () => {
    expect((crossSection(212) / 100).toFixed(1)).toBe('35.8');
    expect(((ellipseAreaOf(212, 88) ?? 0) / 100).toFixed(1)).toBe('29.8');
  });

  it('the ellipse found has the girth it was found by: summed along its edge', () => {
    fc.assert(
      fc.property(fc.double({ min: 40, max: 120, noNaN: true }), fc.double({ min: 0.1, max: 0.98, noNaN: true }), (breadth, share) => {
        const short = breadth * share;
        const steps = 2000;
        let girth = 0;
        for (let step = 0; step < steps; step++) {
          const [one, other] = [step, step + 1].map((at) => (2 * Math.PI * at) / steps) as [number, number];
          girth += Math.hypot((breadth / 2) * (Math.cos(other) - Math.cos(one)), (short / 2) * (Math.sin(other) - Math.sin(one)));
        }
        const area = ellipseAreaOf(girth, breadth);
        expect(area).toBeDefined();
        expect((area ?? 0) / ellipseArea(breadth, short)).toBeCloseTo(1, 2);
      }),
      { numRuns: 60 },
    );
  });

  it('no ellipse is rounder than a circle or flatter than a line', () => {
    expect(ellipseAreaOf(Math.PI * 88 + 1, 88)).toBeUndefined();
    expect(ellipseAreaOf(176, 88)).toBeUndefined();
  });
});

describe('end cap of a residual limb', () => {
  it.each([
    ['cone', '61.115'],
    ['paraboloid', '91.673'],
    ['half-ellipsoid', '122.231'],
  ] as const)('%s of 24 cm and 4 cm to the printed digits', (form, printed) => {
    expect((endCap(form, 240, 40) / 1000).toFixed(3)).toBe(printed);
  });

  it.each([
    ['cone', (share: number) => 1 - share],
    ['paraboloid', (share: number) => Math.sqrt(1 - share)],
    ['half-ellipsoid', (share: number) => Math.sqrt(1 - share * share)],
  ] as const)('%s is the sum of thin discs of that solid', (form, radiusAt) => {
    const discs = 20_000;
    let sum = 0;
    for (let disc = 0; disc < discs; disc++) sum += crossSection(300 * radiusAt((disc + 0.5) / discs)) * (70 / discs);
    expect(endCap(form, 300, 70) / sum).toBeCloseTo(1, 6);
  });
});
