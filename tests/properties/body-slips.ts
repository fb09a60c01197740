import type { Visit } from '@/lib/record/patient-record';
import { NANOMETRES_IN, type TypedLength } from '@/lib/units/length';
import { NANOGRAMS_IN, type TypedMass } from '@/lib/units/mass';
import type { Random } from '@/tests/cohort/random';

/** Slips of the hand in one height or weight. */
export const BODY_SLIPS = ['tens digit', 'swapped digits', '×10 or a tenth', 'other unit'] as const;
export type BodySlip = (typeof BODY_SLIPS)[number];

/** The visit with one slip in its height or weight; undefined where the slip would change too little to matter (4 % of height, 12 % of weight). */
export function withSlip(visit: Visit, measure: 'height' | 'weight', slip: BodySlip, random: Random): Visit | undefined {
  const typed = visit[measure];
  if (!typed) return undefined;
  const was = Number(typed.text);
  const is = slipped(typed.text, was, measure, slip, random);
  if (is === undefined || is <= 0) return undefined;
  if (Math.abs(is / was - 1) <= (measure === 'height' ? 0.04 : 0.12)) return undefined;
  const text = String(Number(is.toFixed(1)));
  return measure === 'height'
    ? { ...visit, height: lengthOf(text, typed.unit as 'in' | 'cm') }
    : { ...visit, weight: massOf(text, typed.unit as 'kg' | 'lb') };
}

function slipped(text: string, was: number, measure: 'height' | 'weight', slip: BodySlip, random: Random): number | undefined {
  if (slip === '×10 or a tenth') return random.uniform() < 0.5 ? was * 10 : was / 10;
  if (slip === 'other unit')
    return random.uniform() < 0.5 ? was * (measure === 'height' ? 2.54 : 2.2046) : was / (measure === 'height' ? 2.54 : 2.2046);
  const [whole = '', rest] = text.split('.');
  const place = whole.length - 2;
  if (place < 0) return undefined;
  const digits = whole.split('');
  if (slip === 'tens digit') {
    const other = (Number(digits[place]) + 1 + Math.floor(9 * random.uniform())) % 10;
    digits[place] = String(other);
  } else {
    const at = whole.length >= 3 && random.uniform() < 0.5 ? place - 1 : place;
    if (digits[at] === digits[at + 1]) return undefined;
    [digits[at], digits[at + 1]] = [digits[at + 1] as string, digits[at] as string];
  }
  return Number(`${digits.join('')}${rest ? `.${rest}` : ''}`);
}

/** A height typed in a unit. */
export function lengthOf(text: string, unit: 'in' | 'cm'): TypedLength {
  return { text, unit, nm: Math.round(Number(text) * Number(NANOMETRES_IN[unit])) as TypedLength['nm'] };
}

/** A weight typed in a unit. */
export function massOf(text: string, unit: 'kg' | 'lb'): TypedMass {
  return { text, unit, ng: Math.round(Number(text) * Number(NANOGRAMS_IN[unit])) };
}
