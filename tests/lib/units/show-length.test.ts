import { describe, expect, it } from 'vitest';
import { readLength } from '@/lib/units/read-length';
import { echoLength, showLength, showLengthChange, showLengthWithUnit } from '@/lib/units/show-length';
import { showVolume, thousands } from '@/lib/units/volume';

const INCH = 25.4;

describe('a sign', () => {
  it('stands before what is less than nothing, and never before what rounds to nothing', () => {
    expect([showLength(-12, 'cm'), showLength(-0.4, 'cm'), showLength(0, 'cm'), showLength(-0.6, 'cm')]).toEqual([
      '−1.2',
      '0.0',
      '0.0',
      '−0.1',
    ]);
    expect([showLength(-INCH / 4, 'in'), showLength(-0.1, 'in'), showLength(0, 'in')]).toEqual(['−¼', '0', '0']);
  });

  it('of a change is said of both ways; what rounds to nothing is the same', () => {
    expect([3, -3, 0.4, -0.4, 0].map((mm) => showLengthChange(mm, 'cm'))).toEqual(['+0.3', '−0.3', 'same', 'same', 'same']);
    expect([INCH / 8, -INCH / 8, 0.1].map((mm) => showLengthChange(mm, 'in'))).toEqual(['+⅛', '−⅛', 'same']);
  });
});

describe('a volume', () => {
  it('has a comma between thousands', () => {
    expect([0, 999, 1000, 4701, 12345, 1234567].map(thousands)).toEqual(['0', '999', '1,000', '4,701', '12,345', '1,234,567']);
    expect(showVolume(4700.6)).toBe('4,701\u202fml');
  });
});

describe('a text', () => {
  it('is kept without the spaces around it', () => {
    const reading = readLength('  7 3/4 ', 'in');
    expect(reading.kind === 'read' && reading.value.text).toBe('7 3/4');
    expect(readLength(' 0.000001 ', 'in')).toMatchObject({ reason: '“0.000001” is finer than any tape.' });
    expect(readLength(` 5' 12" `, 'in')).toMatchObject({ reason: `“5' 12"” has twelve inches or more beside its feet.` });
    expect(readLength(`100' 1"`, 'in')).toMatchObject({ reason: `“100' 1"” is too large to be measured.` });
  });
});

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
