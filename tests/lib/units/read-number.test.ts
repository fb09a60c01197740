import { describe, expect, it } from 'vitest';
import { readNumber } from '@/lib/units/read-number';

const fractionOf = (text: string) => {
  const reading = readNumber(text);
  return reading.kind === 'read' ? Number(reading.value.numerator) / Number(reading.value.denominator) : reading.kind;
};
const readingsOf = (text: string) => {
  const reading = readNumber(text);
  return reading.kind === 'ask' ? reading.readings : reading.kind;
};

// Common practice of tapes in inches: a space between whole and part is easily left out. Each reading is worked by hand.
describe('a number as typed', () => {
  it.each([
    ['14', 14],
    ['37,5', 37.5],
    ['1234,5', 1234.5],
    ['0,125', 0.125],
    ['14-3/4', 14.75],
    ['14 and 3/4', 14.75],
    ['3/4', 0.75],
  ])('%s is %d', (text, value) => expect(fractionOf(text)).toBe(value));

  it('a comma before three figures is thousands or decimals, unless the whole part cannot be a group', () => {
    expect(readingsOf('1,234')).toEqual(['1.234', '1234']);
    expect(readingsOf('12,345')).toEqual(['12.345', '12345']);
    expect(readingsOf('123,456')).toEqual(['123.456', '123456']);
    expect(readingsOf('1234,567')).toBe('read');
    expect(readingsOf('0,250')).toBe('read');
    expect(readingsOf('100,250')).toEqual(['100.250', '100250']);
    expect(readingsOf('1.234')).toBe('read');
  });

  it('a part run together with its whole is asked about in every way that leaves a proper part', () => {
    expect(readingsOf('143/4')).toEqual(['14 3/4']);
    expect(readingsOf('1111/16')).toEqual(['11 11/16', '111 1/16']);
    expect(readingsOf('104/8')).toEqual(['10 4/8']);
    expect(readingsOf('108/8')).toBe('refused');
    expect(readingsOf('9/8')).toBe('refused');
    expect(readingsOf('8/8')).toBe('refused');
  });

  it('what is longer than any figure is refused before it is read', () => {
    expect(readNumber('1'.repeat(500))).toMatchObject({ kind: 'refused' });
  });
});
