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

// A refusal says what is wrong with the figure in the words of the box; the words are our own.
describe('what cannot be read as a number', () => {
  const reasonOf = (text: string) => {
    const reading = readNumber(text);
    return reading.kind === 'read' ? `read as ${Number(reading.value.numerator) / Number(reading.value.denominator)}` : reading.reason;
  };
  it.each([
    ['2O', '“2O”: a letter O. Type a nought.'],
    ['2o', '“2o”: a letter O. Type a nought.'],
    ['l2', '“l2”: a letter l. Type a one.'],
    ['I2', '“I2”: a letter I. Type a one.'],
    ['2a', '“2a”: a letter a. Type figures only.'],
    ['2A4', '“2A4”: a letter A. Type figures only.'],
    ['2§', '“2§”: the sign § cannot be read here.'],
    ['３４', '“３４” uses figures of another script. Type 0 to 9.'],
    ['/', '“/” has no figures in it.'],
    ['3/', '“3/” stops at the stroke. Type the lower part too.'],
    ['/4', '“/4” starts at the stroke. Type the upper part too.'],
    ['1.2.3', '“1.2.3” has more than one decimal mark.'],
    ['.5', '“.5” has nothing before the decimal mark. Type 0 before it.'],
    [',5', '“,5” has nothing before the decimal mark. Type 0 before it.'],
    ['5.', '“5.” stops at the decimal mark.'],
    ['12 5', '“12 5”: is 5 a part of one? Type it with its lower part, as 12 5/8.'],
    ['1.5/8', '“1.5/8” mixes decimals and a fraction.'],
    ['1/8.5', '“1/8.5” mixes decimals and a fraction.'],
    ['1-2', '“1-2” cannot be read as one figure.'],
    ['3/0', '“3/0” divides by nothing.'],
    ['3/7', '“3/7”: no tape is marked in 1/7. Halves to 64ths and tenths can be read.'],
    ['14 8/8', '“14 8/8”: 8/8 is not a part of one. Type the whole figure and the part again.'],
    ['14 0/8', '“14 0/8”: 0/8 is not a part of one. Type the whole figure and the part again.'],
    ['0/8', '“0/8” is nothing. Type a length above zero.'],
    ['100000', '“100000” is too large to be measured.'],
    ['99999', 'read as 99999'],
  ])('%s', (text, reason) => expect(reasonOf(text)).toBe(reason));
});
