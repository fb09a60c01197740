import { describe, expect, it } from 'vitest';
import type { GarmentSpec } from '@/lib/garment-forms/garment-catalogue';
import { policyOfPiece } from '@/lib/garments/piece-band';
import { nearestPlace } from '@/lib/garments/pressure-readings';
import { fabricOf, narrowedLoss, publishedLoss, tensionLeft } from '@/lib/garments/tension-loss';
import { exponentSd, relativeTightness } from '@/lib/garments/tightness';
import { pressureEstimates, sideOfBand, wornPlaces } from '@/lib/garments/worn-fit';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import type { KeptObservation } from '@/lib/observations/observation';
import { isNoAnswer } from '@/lib/outcome';
import type { Piece } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { ladderOf, recordOf, visitOf } from '../made-up-ladder';
import { analysed, legOf, pieceOf } from '../prompts/made-up-piece';

const D = calendarDay;
const scar = publishedLoss('scar garment', DEFAULT_POLICY);
const knit = publishedLoss('flat knit', DEFAULT_POLICY);

describe('tension lost by wear', () => {
  // J Burn Care Res 2020 (grown people, custom garments): means on scar and on skin at fitting and three months. Veraart: flat knit at 0, 1 and 3 months.
  it.each([
    ['scar garment, on scar', scar, 90, 9.9 / 15.3],
    ['scar garment, on skin', scar, 90, 9.2 / 13.4],
    ['flat knit class II, 1 month', knit, 30, 27.6 / 29.3],
    ['flat knit class II, 3 months', knit, 90, 26.5 / 29.3],
    ['flat knit class III, 1 month', knit, 30, 44.2 / 47.5],
    ['flat knit class III, 3 months', knit, 90, 41.3 / 47.5],
  ])('has the published mean of %s in its range, and its middle within three in a hundred of it', (_, loss, days, published) => {
    expect(tensionLeft(loss, days, 1.96)).toBeLessThan(published);
    expect(tensionLeft(loss, days, -1.96)).toBeGreaterThan(published);
    expect(Math.abs(tensionLeft(loss, days) - published)).toBeLessThan(0.04);
  });

  it('loses most in the first month, nothing before first wear, and never gains', () => {
    expect(1 - tensionLeft(scar, 30)).toBeGreaterThan((1 - tensionLeft(scar, 90)) / 2);
    expect([tensionLeft(scar, 0), tensionLeft({ ...scar, rate: -0.5 }, 90)]).toEqual([1, 1]);
  });

  it('is of scar garments for scars, of flat knit for swelling, and of both where it is not known', () => {
    const group = (diagnosisGroup?: string) => fabricOf({ ...recordOf([]), ...(diagnosisGroup ? { diagnosisGroup } : {}) });
    expect([group('burn scar'), group('lymphoedema'), group('venous'), group('other'), group()]).toEqual([
      'scar garment',
      'flat knit',
      'flat knit',
      'unknown',
      'unknown',
    ]);
    const unknown = publishedLoss('unknown', DEFAULT_POLICY);
    expect(tensionLeft(unknown, 90, -1.96)).toBeCloseTo(0.96, 2);
    expect(tensionLeft(unknown, 90, 1.96)).toBeCloseTo(0.5, 2);
  });

  it('is narrowed by readings as the conjugate normal says, worked by hand', () => {
    // 1/0.1³... : prior 0.4278 ± 0.1353, x = 1, reading 0.20 with variance 0.02: precision 54.6 + 50, mean (0.4278·54.6 + 0.2·50)/104.6 = 0.319.
    const narrowed = narrowedLoss(scar, [{ fromDays: 0, toDays: 90, lnRatio: -0.2, variance: 0.02 }]);
    expect(narrowed.rate).toBeCloseTo(0.319, 3);
    expect(narrowed.rateSd).toBeCloseTo(0.0978, 3);
    // A pair over a quarter of the days stands for half of the clock, √(22.5/90), and so for a quarter of the weight.
    const quarter = narrowedLoss(scar, [{ fromDays: 0, toDays: 22.5, lnRatio: -0.2, variance: 0.02 }]);
    const weight = 1 / scar.rateSd ** 2 + 0.5 ** 2 / 0.02;
    expect(quarter.rate).toBeCloseTo((scar.rate / scar.rateSd ** 2 + (0.5 * 0.2) / 0.02) / weight, 12);
    expect(quarter.rateSd).toBeCloseTo(1 / Math.sqrt(weight), 12);
    expect(narrowedLoss(scar, [{ fromDays: 20, toDays: 20, lnRatio: -1, variance: 0.02 }])).toEqual(scar);
  });
});

describe('the exponent of a fabric', () => {
  it('is the derivative of (ε/ε₀)ⁿ C₀/C by n at n = 1, by central difference, and nothing at the fitting', () => {
    const [relaxed, fitted, now] = [180, 200, 206];
    const at = (n: number) => ((now / relaxed - 1) / (fitted / relaxed - 1)) ** n * (fitted / now);
    expect(at(1)).toBeCloseTo(relativeTightness(relaxed, now, fitted), 9);
    const slope = (at(1.0001) - at(0.9999)) / 0.0002;
    expect(exponentSd(relaxed, now, fitted, relaxed, DEFAULT_POLICY)).toBeCloseTo((slope * 0.9) / 3.92, 6);
    expect(exponentSd(relaxed, fitted, fitted, relaxed, DEFAULT_POLICY)).toBe(0);
    expect(exponentSd(relaxed, 179, fitted, relaxed, DEFAULT_POLICY)).toBe(0);
  });
});

const READ: KeptObservation = {
  ...{ observationId: 'r', kind: 'garment-pressure', version: '1', day: D('2026-01-20'), figures: { mmHg: 20 } },
  ...{ choice: 'sitting', side: null, place: { limb: 'leg', side: 'left', along: 0.2 }, gone: null, rater: null, words: null },
};
const WORN = pieceOf('2026-01-05', { firstWorn: D('2026-01-19') });
const read = (mmHg: number, day: string, more: Partial<KeptObservation> = {}): KeptObservation => ({
  ...READ,
  observationId: `${mmHg} ${day}`,
  figures: { mmHg },
  day: D(day),
  ...more,
});

function pieceWith(observations: readonly KeptObservation[], pieces: readonly Piece[] = [WORN], group = 'burn scar') {
  const record = recordOf([visitOf('2026-01-05', [legOf()], { weight: '70 kg' })], { pieces, observations });
  const [one] = analysed({ ...record, diagnosisGroup: group } as typeof record, '2026-04-19').pieces;
  if (!one || isNoAnswer(one.fit)) throw new Error('no fit');
  return { one, fit: one.fit };
}

describe('pressure readings of a piece', () => {
  it('narrow its wear where site and posture are the same, to within what they say: 20 → 18 mmHg in 90 days is −10 %', () => {
    const { wear } = pieceWith([read(20, '2026-01-20'), read(18, '2026-04-18')]).one;
    const published = pieceWith([]).one.wear;
    expect([published.loss.pairs, wear.loss.pairs]).toEqual([0, 1]);
    expect(wear.left.middle).toBeGreaterThan(published.left.middle + 0.03);
    expect(wear.left.most - wear.left.least).toBeLessThan(published.left.most - published.left.least);
  });

  it.each([
    ['another posture', { choice: 'standing' }],
    ['another place', { place: { limb: 'leg', side: 'left', along: 0.4 } as const }],
    ['the other leg', { place: { limb: 'leg', side: 'right', along: 0.2 } as const }],
    ['a place the piece does not cover', { place: { limb: 'leg', side: 'left', along: 0.9 } as const }],
  ])('of %s calibrates nothing', (_, more) => {
    expect(pieceWith([read(20, '2026-01-20'), read(12, '2026-04-18', more)]).one.wear).toEqual(pieceWith([]).one.wear);
  });

  it('of one site three times make one pair, the first and the last; before first wear none is of it', () => {
    const { wear, readings } = pieceWith([
      read(20, '2026-01-20'),
      read(19, '2026-02-20'),
      read(18, '2026-04-18'),
      read(30, '2026-01-10'),
    ]).one;
    expect([wear.loss.pairs, readings.of.map(({ mmHg }) => mmHg)]).toEqual([1, [20, 19, 18]]);
  });

  it('are of the place at their share of the way between both landmarks, however long the lower part is', () => {
    const rungs = Array.from({ length: 15 }, (_, rung) => [4 * (rung + 1), 24 + rung] as const);
    const ladder = ladderOf({ girths: rungs, landmarks: { knee: 40, 'gluteal-fold': 60 } });
    const [one] = analysed(recordOf([visitOf('2026-01-05', [ladder])], { pieces: [WORN] }), '2026-01-20').pieces;
    if (!one || isNoAnswer(one.fit)) throw new Error('no fit');
    // 0.2 of 60 cm is 12 cm; by usual lengths, the knee at 40 cm, it would be 17.
    expect(nearestPlace(one.fit, 0.2)?.placeMm).toBe(120);
    expect(nearestPlace(one.fit, 0.4)?.placeMm).toBe(240);
    expect(nearestPlace(one.fit, 0.95)).toBeUndefined();
  });

  it('count for no piece where two makes were in use on the limb, and the page is told why', () => {
    const other = { ...WORN, piece: '2', reductionPct: 20 };
    const { one } = pieceWith([READ, read(12, '2026-04-18')], [WORN, other]);
    expect([one.readings.of.length, one.readings.leftOut.length, one.wear.loss.pairs]).toEqual([0, 2, 0]);
  });

  it('give an estimate in mmHg where one was read and none elsewhere', () => {
    const { one, fit } = pieceWith([READ]);
    const [estimate] = pressureEstimates(fit, one.readings, one.wear, DEFAULT_POLICY);
    // 20 mmHg at 1 worn day, girth unchanged: 20 × exp(−0.4278 (√(90/90) − √(1/90))) = 13.64.
    expect(estimate?.middle).toBeCloseTo(20 * Math.exp(-0.4278 * (1 - Math.sqrt(1 / 90))), 1);
    expect((estimate?.low ?? 0) < 13 && (estimate?.high ?? 0) > 15).toBe(true);
    const without = pieceWith([]);
    expect(pressureEstimates(without.fit, without.one.readings, without.one.wear, DEFAULT_POLICY)).toEqual([]);
  });
});

describe('tightness as worn', () => {
  it('is that as cut times what is left, widened by the fabric', () => {
    const { one, fit } = pieceWith([]);
    const [place] = wornPlaces(fit, one.wear);
    expect(place?.middle).toBeCloseTo(Math.exp(-0.4278), 3);
    expect([place?.low, place?.high].map((figure) => figure?.toFixed(2))).toEqual(['0.50', '0.85']);
  });

  it('is tighter by the middle, looser only by the least loss', () => {
    const { wear } = pieceWith([]).one;
    const band = { low: 0.75, high: 1.25 };
    // 0.65 and 0.85 are left: 1.90 × 0.65 = 1.24, 1.95 × 0.65 = 1.27; 0.90 × 0.85 = 0.765, 0.86 × 0.85 = 0.73.
    expect([1.9, 1.95, 0.9, 0.86].map((asCut) => sideOfBand(asCut, wear, band))).toEqual([undefined, 'tighter', undefined, 'looser']);
  });
});

describe('the band of a piece', () => {
  const garment = (lowMmHg: number, highMmHg: number): GarmentSpec => ({
    ...{ form: 'leg-sleeve', use: 'day', options: [] },
    pressure: { scheme: 'scheme S', name: '2', lowMmHg, highMmHg },
  });
  const bandOf = (piece: Piece, observations: readonly KeptObservation[] = []) => pieceWith(observations, [piece]).one.band;

  it('is the clinic’s where no class was ordered, else that of the class about its middle', () => {
    expect(bandOf(WORN)).toMatchObject({ low: 0.75, high: 1.25, from: 'clinic', reference: 'assumed' });
    // 23–32 mmHg about 27.5.
    const classed = bandOf({ ...WORN, garment: garment(23, 32) });
    expect([classed.low, classed.high]).toEqual([23 / 27.5, 32 / 27.5]);
    expect(classed.from).toBe('class');
  });

  it('moves with a reading at rest of the first fit: 15–25 mmHg about 24 is 0.63–1.04', () => {
    const moved = bandOf(WORN, [read(24, '2026-01-21')]);
    expect([moved.low, moved.high, moved.reference]).toEqual([15 / 24, 25 / 24, 'read']);
    for (const other of [read(24, '2026-03-21'), read(24, '2026-01-21', { choice: 'moving' })])
      expect(bandOf(WORN, [other])).toMatchObject({ reference: 'assumed' });
  });

  it('takes a reading of the calf for none of a class, which is measured at the ankle', () => {
    const classed = { ...WORN, garment: garment(23, 32) };
    const at = (along: number) => [read(24, '2026-01-21', { place: { limb: 'leg', side: 'left', along } })];
    expect(bandOf(classed, at(0.35)).reference).toBe('assumed');
    expect(bandOf(classed, at(0.1)).reference).toBe('read');
  });

  it('moves to an edge where most zones sat too tight or too loose, and prompts use it', () => {
    const fitted = (fit: 'too tight' | 'too loose'): Piece => ({
      ...WORN,
      fit: {
        ...{ day: D('2026-01-19'), outcome: 'keep', reason: null, words: 'kept', taught: true },
        zones: [
          { zone: 'calf', fit },
          { zone: 'knee', fit },
          { zone: 'top edge', fit: 'good' },
        ],
      },
    });
    const [tight, loose] = [bandOf(fitted('too tight')), bandOf(fitted('too loose'))];
    expect([tight.low, tight.high]).toEqual([0.6, 1]);
    expect([loose.low, loose.high]).toEqual([1, 25 / 15]);
    expect(policyOfPiece(DEFAULT_POLICY, tight)).toMatchObject({ bandLow: 0.6, bandHigh: 1 });
  });
});
