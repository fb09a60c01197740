import { describe, expect, it } from 'vitest';
import { exactText } from '@/lib/units/exact-text';
import { readLength } from '@/lib/units/read-length';
import { seeded } from '@/tests/cohort/random';

describe('an exact length as text', () => {
  it.each([
    [114_300_000, 'in', '4 1/2'],
    [396_875, 'in', '1/64'],
    [25_400_000, 'in', '1'],
    [38_100_000, 'cm', '3.81'],
    [197_000_000, 'cm', '19.7'],
  ] as const)('%d nm in %s is %s (1 in = 25.4 mm, 1959)', (nm, unit, text) => {
    expect(exactText(nm, unit)).toBe(text);
  });

  it('reads back as itself for every 64th of an inch and every tenth of a millimetre', () => {
    const random = seeded(3);
    for (let time = 0; time < 2000; time++) {
      const [unit, step] = random.uniform() < 0.5 ? (['in', 396_875] as const) : (['cm', 100_000] as const);
      const nm = (1 + Math.floor(random.uniform() * 5000)) * step;
      const reading = readLength(exactText(nm, unit), unit, true);
      expect(reading.kind === 'read' && reading.value.nm).toBe(nm);
    }
  });
});

describe('feet', () => {
  it('are read for a height and refused on a ladder, where a stroke is a slip', () => {
    expect(readLength('5\' 6"', 'in')).toMatchObject({ kind: 'read', value: { nm: 1_676_400_000 } });
    expect(readLength("52'7/32", 'in', true)).toMatchObject({ kind: 'refused' });
    expect(readLength('5 ft', 'cm', true)).toMatchObject({ kind: 'refused' });
  });
});
