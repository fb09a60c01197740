import { describe, expect, it } from 'vitest';
import { pieceBand } from '@/lib/garments/piece-band';
import { DEFAULT_POLICY } from '@/lib/limits/policy';
import type { Piece } from '@/lib/record/patient-record';
import { calendarDay } from '@/lib/units/calendar-day';
import { pieceOf } from '../prompts/made-up-piece';

const read = (...of: readonly object[]) => ({ of, leftOut: [] }) as never;
const pressure = { scheme: 'made up', name: '2', lowMmHg: 20, highMmHg: 30 };
const classed: Partial<Piece> = { garment: { form: 'calf-sleeve', use: 'day', pressure, options: [] } };
const fittedAs = (...fits: readonly ('good' | 'too tight' | 'too loose')[]): Partial<Piece> => ({
  fit: {
    day: calendarDay('2026-01-20'),
    zones: fits.map((fit, at) => ({ zone: String(at), fit })),
    outcome: 'keep',
    reason: null,
    words: null,
    taught: true,
  } as never,
});
const bandOf = (rest: Partial<Piece>, readings = read()) => pieceBand(pieceOf('2026-01-05', rest), readings, DEFAULT_POLICY);

// Shares of the tightness as fitted, worked by hand from a class of 20–30 mmHg: middle 25, so 0.8 to 1.2.
describe('the band of a piece', () => {
  it('of a class, taken as fitted in its middle, is the class over the middle', () => {
    const band = bandOf(classed);
    expect([band.low, band.high, band.from, band.reference]).toEqual([0.8, 1.2, 'class', 'assumed']);
    expect(band.says).toEqual([
      'Band of the order: class 2, made up, 20–30\u202fmmHg.',
      'No reading of its first fit: taken as fitted in the middle of its class.',
    ]);
    expect(bandOf({ garment: { ...classed.garment, pressure: { ...pressure, name: 'Class 2' } } as never }).says[0]).toContain(
      ': Class 2,',
    );
  });

  it('too tight at most zones of its first fit it was fitted at the upper edge, too loose at the lower', () => {
    const tight = bandOf({ ...classed, ...fittedAs('too tight', 'too tight', 'good') });
    expect([tight.low, tight.high, tight.reference]).toEqual([20 / 30, 1, 'first fit']);
    expect(tight.says[1]).toBe('It sat too tight at its first fit: fitted at the upper edge.');
    const loose = bandOf({ ...classed, ...fittedAs('too loose', 'too loose', 'too tight') });
    expect([loose.low, loose.high, loose.reference]).toEqual([1, 1.5, 'first fit']);
    expect(loose.says).toEqual([
      'Band of the order: class 2, made up, 20–30\u202fmmHg.',
      'It sat too loose at its first fit: fitted at the lower edge.',
    ]);
    expect(bandOf({ ...classed, ...fittedAs('too tight', 'too loose') }).reference).toBe('assumed');
  });

  it('read at rest at its first fit, in the far quarter for a class, is about the mean of what was read', () => {
    const [day, later] = [calendarDay('2026-01-20'), calendarDay('2026-03-20')];
    const at = (more: object) => ({ day, posture: 'lying', mmHg: 20, alongPiece: 0.1, ...more });
    const worn = { ...classed, firstWorn: calendarDay('2026-01-19') };
    const band = bandOf(worn, read(at({}), at({ mmHg: 30, posture: 'sitting', alongPiece: 0.25 }), at({ mmHg: 90, posture: 'walking' })));
    expect([band.low, band.high, band.reference]).toEqual([0.8, 1.2, 'read']);
    expect(band.says[1]).toBe('About 25\u202fmmHg as read at the first fit, 20 Jan 2026.');
    for (const elsewhere of [{ alongPiece: 0.26 }, { day: later }, { day: calendarDay('2026-01-18') }, { posture: 'walking' }])
      expect(bandOf(worn, read(at(elsewhere))).reference).toBe('assumed');
    const { garment: _, ...own } = worn;
    expect(bandOf(own, read(at({ alongPiece: 0.9 }))).reference).toBe('read');
    expect(bandOf({ ...classed, firstWorn: null }, read(at({}))).reference).toBe('assumed');
  });

  it('without a class is the clinic’s own', () => {
    const band = bandOf({});
    expect([band.low, band.high, band.from]).toEqual([DEFAULT_POLICY.bandLow, DEFAULT_POLICY.bandHigh, 'clinic']);
    expect(band.says).toEqual([
      'Band: by the limits, no class was ordered.',
      'No reading of its first fit: taken as fitted in the middle.',
    ]);
  });
});
