import { isLandmarkOf, LIMBS, type LimbKind, placeInWords, type Side } from '../ladder/limb';
import type { Reading } from '../outcome';
import type { CoverEnd, ReductionConvention } from '../record/patient-record';
import type { CalendarDay } from '../units/calendar-day';
import type { LengthUnit, TypedLength } from '../units/length';
import { readLength } from '../units/read-length';
import { readNumber } from '../units/read-number';

/** A ladder that a piece can be cut from. */
export type CutLadder = {
  readonly key: string;
  readonly visitId: string;
  readonly day: CalendarDay;
  readonly limb: LimbKind;
  readonly side: Side;
  readonly unit: LengthUnit;
};

/** An end of the cover: a landmark of the ladder's limb in its own words (`ankle crease`), or a distance on it. */
export function readEnd(text: string, ladder: CutLadder): Reading<CoverEnd> {
  const end = text.trim();
  const landmark = end.toLowerCase().replaceAll(/\s+/g, '-');
  if (isLandmarkOf(ladder.limb, landmark)) return { kind: 'read', value: landmark };
  if (/^[a-z]/i.test(end)) {
    const names = LIMBS[ladder.limb].landmarks.map(placeInWords).join(', ');
    return {
      kind: 'refused',
      reason: `“${end}” is not a landmark of this ${ladder.limb}. Choose ${names}, or type a distance on the ladder.`,
    };
  }
  return readLength(end, ladder.unit);
}

/** Whether both ends are one place. */
export function sameEnd(one: CoverEnd, other: CoverEnd): boolean {
  return typeof one === 'string' || typeof other === 'string' ? one === other : one.nm === other.nm;
}

/** A reduction in per cent, 0 to 60. */
export function readReduction(text: string): Reading<number> {
  const figure = text.trimEnd();
  const number = readNumber(figure.endsWith('%') ? figure.slice(0, -1) : figure);
  if (number.kind !== 'read') return number;
  const value = Number(number.value.numerator) / Number(number.value.denominator);
  return value > 0 && value < 60
    ? { kind: 'read', value }
    : { kind: 'refused', reason: 'A reduction lies between 0 and 60 per cent. Type 15 for 15 per cent.' };
}

/** How a reduction is counted, or null. */
export function readConvention(text: string): ReductionConvention | null {
  return text === 'C(1-r)' || text === 'C/(1+r)' ? text : null;
}

/** Whole days, at least so many. */
export function readDays(text: string, least: number): Reading<number> {
  const days = text.trim();
  if (/^\d{1,4}$/.test(days) && Number(days) >= least) return { kind: 'read', value: Number(days) };
  return { kind: 'refused', reason: `Type whole days, ${least} or more.` };
}

/** An end of the cover as a form shows it again. */
export function endAsTyped(end: CoverEnd): string {
  return typeof end === 'string' ? placeInWords(end) : lengthAsTyped(end);
}

/** A length as typed, with its unit unless it was typed too, so that it reads back the same in a form of either unit. */
export function lengthAsTyped({ text, unit }: TypedLength): string {
  return /[a-z"″]/i.test(text) ? text : `${text} ${unit}`;
}
