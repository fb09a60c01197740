import { describe, expect, it } from 'vitest';
import { placeOnTape } from '@/lib/ladder/place-on-tape';
import { bothUnits } from '@/lib/orders/printed-rows';
import { asSentence } from '@/lib/units/as-sentence';
import { readLength } from '@/lib/units/read-length';
import { echoLength, showTapedLength } from '@/lib/units/show-length';

describe('parts of a sentence', () => {
  it('end with one full stop, also after words that have one of their own', () => {
    expect(asSentence(['worn 9 h a day', '“It rubs.”'])).toBe('worn 9 h a day; “It rubs.”');
    expect(asSentence(['worn 9 h a day', '“It rubs”'])).toBe('worn 9 h a day; “It rubs”.');
    expect(asSentence(['„Es reibt.“'])).toBe('„Es reibt.“');
  });
});

describe('one figure of one thing', () => {
  it('centimetres read while typing are the same inches as on the printed order: 26.8 cm is 10.551 in, nearest sixteenth 9', () => {
    expect(echoLength(268, 'cm')).toBe('26.8\u202fcm · 10\u202f9⁄16\u202fin');
    for (let tenths = 50; tenths <= 1200; tenths++) {
      const read = readLength((tenths / 10).toFixed(1), 'cm');
      if (read.kind !== 'read') throw new Error('a length is read');
      const { other } = bothUnits(read.value);
      expect(echoLength(tenths, 'cm')).toBe(`${(tenths / 10).toFixed(1)}\u202fcm · ${other}\u202fin`);
    }
  });

  it('a length typed to the sixteenth is shown so wherever it stands; one that was worked out, to the eighth', () => {
    expect(showTapedLength(10.5625 * 25.4, 'in')).toBe('10\u202f9⁄16');
    expect(showTapedLength(268, 'in')).toBe('10½');
    expect(showTapedLength(10.5 * 25.4, 'in')).toBe('10½');
    expect(showTapedLength(268, 'cm')).toBe('26.8');
    const ruler = { zero: 'ankle-crease', zeroMm: 0.1 + 0.2 - 0.3, direction: 'up', unit: 'in' } as const;
    expect(placeOnTape(3.1875 * 25.4, ruler)).toBe('3\u202f3⁄16');
  });
});
