import { describe, expect, it } from 'vitest';
import { countedFrom, placeOnTape, stretchOnTape } from '@/lib/ladder/place-on-tape';

const DOWN = { zero: 'gluteal-fold', zeroMm: 670, direction: 'down', unit: 'cm' } as const;
const UP = { zero: 'ankle-crease', zeroMm: 0, direction: 'up', unit: 'cm' } as const;

// By hand: 670 − 640 = 30 mm; a place beyond zero is named by its side, as no tape shows a minus.
describe('a place reads as on the tape it was measured with', () => {
  it('counts from zero in the direction of the tape', () => {
    expect(placeOnTape(640, DOWN)).toBe('3.0');
    expect(placeOnTape(30, UP)).toBe('3.0');
    expect(placeOnTape(25.4, UP, 'in')).toBe('1');
  });
  it('never shows a minus: beyond zero it says the way', () => {
    expect(placeOnTape(690, DOWN)).toBe('2.0 above');
    expect(placeOnTape(-20, UP)).toBe('2.0 below');
  });
  it('names a stretch in the order of the tape', () => {
    expect(stretchOnTape(250, 630, DOWN)).toBe('4.0–42.0\u202fcm down from the gluteal fold');
    expect(stretchOnTape(40, 420, UP)).toBe('4.0–42.0\u202fcm up from the ankle crease');
    expect(countedFrom(UP)).toBe('up from the ankle crease');
  });
});
