import { describe, expect, it } from 'vitest';
import { readLength } from '@/lib/units/read-length';
import { echoLength, showLength, showLengthWithUnit } from '@/lib/units/show-length';

const INCH = 25.4;

describe('a length in sixteenths', () => {
  it('sets the whole number and the fraction apart', () => {
    expect(showLength((23 + 3 / 16) * INCH, 'in', 16)).toBe('23\u202f3⁄16');
    expect(showLengthWithUnit((12 + 15 / 16) * INCH, 'in', 16)).toBe('12\u202f15⁄16\u202fin');
    expect(echoLength((23 + 3 / 16) * INCH, 'in')).toMatch(/^23\s3⁄16\sin · 58\.9\scm$/);
    expect(showLength((3 / 16) * INCH, 'in', 16)).toBe('3⁄16');
    expect(showLength(7.75 * INCH, 'in', 16)).toBe('7¾');
  });

  it('is never digits that run into each other, and reads back as itself, as copied too', () => {
    for (let steps = 1; steps <= 80 * 16; steps++) {
      const shown = showLength((steps / 16) * INCH, 'in', 16);
      expect(shown).toMatch(/^(\d+\u202f)?\d{1,2}⁄16$|^\d+[⅛¼⅜½⅝¾⅞]?$|^[⅛¼⅜½⅝¾⅞]$/);
      for (const copied of [shown, shown.replaceAll('\u202f', ' ')]) {
        const reading = readLength(copied, 'in', true);
        expect(reading.kind === 'read' ? reading.value.nm : reading.reason).toBe(Math.round((steps / 16) * 25_400_000));
      }
    }
  });
});
