import { mm, type TypedLength } from '../units/length';
import { kg, type TypedMass } from '../units/mass';
import { bodyMassIndex } from './body-mass-index';

/** Body mass indices outside of which the unit of a weight is asked about, kg/m². */
const LEAST = 13;
const MOST = 50;

/**
 * The question whether a weight was read in the other unit of a scale, for its height; undefined where nothing speaks for it.
 *
 * Kilograms taken for pounds make a person less than half as heavy, pounds taken for kilograms more than twice. Whoever types the unit
 * is not asked. It asks and refuses nothing.
 * Shape: a weight and a height as typed; a sentence. Source: clinic default; of real adults and children (ANSUR II 2012, Snyder 1977)
 * one in a thousand is asked for nothing, see the test.
 * Example: 74 read as lb at 168 cm is an index of 11.9: `Light for this height. Kilograms? Type 74 kg, or 74 lb if it is right.`
 */
export function weightUnitDoubt(weight: TypedMass, height: TypedLength): string | undefined {
  if (/[a-z]/i.test(weight.text)) return undefined;
  const index = bodyMassIndex(kg(weight), mm(height.nm) / 10);
  if (index === undefined) return undefined;
  if (weight.unit === 'lb' && index < LEAST)
    return `Light for this height. Kilograms? Type ${weight.text} kg, or ${weight.text} lb if it is right.`;
  if (weight.unit === 'kg' && index > MOST)
    return `Heavy for this height. Pounds? Type ${weight.text} lb, or ${weight.text} kg if it is right.`;
  return undefined;
}
