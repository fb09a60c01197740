import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { weightUnitDoubt } from '@/lib/growth/weight-unit-doubt';
import { readMass } from '@/lib/units/mass';
import { readLength } from '@/lib/units/read-length';

/** Weight (0.1 kg) and stature (mm) of real people, from the published surveys in tests/reference/body. */
function peopleOf(file: string): { kg: number; mm: number }[] {
  const [head = '', ...rows] = readFileSync(path.resolve(import.meta.dirname, '../../reference/body', file), 'utf8')
    .trim()
    .split('\n');
  const columns = head.split(',');
  const at = (row: string, name: string) => Number(row.split(',')[columns.indexOf(name)]);
  return rows.map((row) => ({ kg: at(row, 'weight_hg') / 10, mm: at(row, 'stature') })).filter((one) => one.kg > 0 && one.mm > 0);
}

/** The share of people whose weight, typed without its unit on a sheet in another, is asked about. */
function asked(people: readonly { kg: number; mm: number }[], scale: 'kg' | 'lb', sheet: 'kg' | 'lb'): number {
  const doubted = people.filter((one) => {
    const weight = readMass((scale === 'kg' ? one.kg : one.kg / 0.45359237).toFixed(1), sheet);
    const height = readLength((one.mm / 10).toFixed(1), 'cm');
    if (weight.kind !== 'read' || height.kind !== 'read') throw new Error('every figure of the survey can be read');
    return weightUnitDoubt(weight.value, height.value) !== undefined;
  });
  return doubted.length / people.length;
}

const ADULTS = peopleOf('ansur2_2012_limbs_every_tenth.csv');
const CHILDREN = peopleOf('snyder1977_limbs_every_tenth.csv');

describe('the unit of a weight', () => {
  it.each(['kg', 'lb'] as const)('is not asked about when a real person is weighed in the %s of the sheet', (unit) => {
    expect(ADULTS.length).toBeGreaterThan(600);
    expect(CHILDREN.length).toBeGreaterThan(300);
    expect(asked(ADULTS, unit, unit)).toBe(0);
    expect(asked(CHILDREN, unit, unit)).toBeLessThan(0.005);
  });

  it('is asked about when kilograms were typed on a sheet in pounds, and the other way round', () => {
    expect(asked(ADULTS, 'kg', 'lb')).toBeGreaterThan(0.6);
    expect(asked(CHILDREN, 'kg', 'lb')).toBeGreaterThan(0.98);
    expect(asked(ADULTS, 'lb', 'kg')).toBeGreaterThan(0.8);
  });

  it('is taken as typed when it was typed', () => {
    const height = readLength('168', 'cm');
    const weight = readMass('74 lb', 'lb');
    if (weight.kind !== 'read' || height.kind !== 'read') throw new Error('refused');
    expect(weightUnitDoubt(weight.value, height.value)).toBeUndefined();
  });
});
