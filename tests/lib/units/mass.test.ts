import { describe, expect, it } from 'vitest';
import { echoMass, kg, readMass, showMass } from '@/lib/units/mass';

// 1 lb = 0.45359237 kg exactly and 16 oz = 1 lb: international yard and pound agreement, 1959.
const kgOf = (text: string, unit: 'kg' | 'lb' = 'kg') => {
  const reading = readMass(text, unit);
  return reading.kind === 'read' ? kg(reading.value) : reading.kind;
};
const reasonOf = (text: string, unit: 'kg' | 'lb' = 'kg') => {
  const reading = readMass(text, unit);
  return reading.kind === 'read' ? '' : reading.reason;
};

describe('a weight as typed', () => {
  it.each([
    ['80.5', 'kg', 80.5],
    ['36,5 kg', 'lb', 36.5],
    ['80', 'lb', 36.2873896],
    ['42 3/4 lb', 'kg', 19.3910738175],
    ['80 lb 8 oz', 'kg', 36.514185785],
    ['7 lbs 1 ounce', 'kg', 3.203496113125],
    ['1 pound 15 oz', 'kg', 0.878835216875],
    ['15 9/16 lb', 'kg', 7.059031258125],
  ] as const)('%s on a sheet in %s is %d kg', (text, unit, expected) => expect(kgOf(text, unit)).toBeCloseTo(expected, 12));

  it('is refused with its reason where it cannot be one weight', () => {
    expect(reasonOf('80 lb 16 oz')).toBe('“80 lb 16 oz” has sixteen ounces or more beside its pounds.');
    expect(kgOf('80 lb 15 oz')).toBeCloseTo(36.712632446875, 12);
    // Half an ounce is 14,174,761,562.5 ng: not a whole number of them.
    expect(reasonOf('7 lb 0 1/2 oz')).toBe('“7 lb 0 1/2 oz” cannot be kept exactly: type whole ounces, decimals of a pound, or kilograms.');
    expect(reasonOf('O lb 8 oz')).toContain('a letter O');
    expect(reasonOf('8 lb l oz')).toContain('a letter l');
    expect(reasonOf('eight')).not.toBe('');
    expect(reasonOf('0')).toBe('A weight of 0 is not a reading. Leave it empty if nobody was weighed.');
    expect(reasonOf('0.0000000000001')).not.toBe('');
    expect(reasonOf('9'.repeat(400))).not.toBe('');
  });

  it('is shown in its own unit and in both', () => {
    expect(showMass(74, 'kg')).toBe('74.0\u202fkg');
    expect(showMass(74, 'lb')).toBe('163.1\u202flb');
    const reading = readMass('163.1', 'lb');
    expect(reading.kind === 'read' && echoMass(reading.value)).toBe('163.1\u202flb · 74.0\u202fkg');
    const other = readMass('74', 'kg');
    expect(other.kind === 'read' && echoMass(other.value)).toBe('74.0\u202fkg · 163.1\u202flb');
  });
});
