import { isLandmarkOf, LIMBS, type LimbKind, placeInWords } from '../ladder/limb';
import type { Reading } from '../outcome';
import type { Part } from '../parts/measure';
import type { Cover, CoverEnd, ReductionConvention, WornPlace } from '../record/patient-record';
import type { CalendarDay } from '../units/calendar-day';
import type { LengthUnit, TypedLength } from '../units/length';
import { readLength } from '../units/read-length';
import { readNumber } from '../units/read-number';

/** What a piece can be cut from: a ladder of a visit, or the named measures of one part. */
export type CutLadder = WornPlace & {
  readonly key: string;
  readonly visitId: string;
  readonly day: CalendarDay;
  readonly unit: LengthUnit;
  /** The part, where a piece is cut from its named measures alone. */
  readonly madeTo?: Part;
};

/** What one choice of a form is kept under: visit, place, and whether it is a ladder or named measures alone. */
export function cutKey(visitId: string | null | undefined, { limb, side }: WornPlace, byMeasures: boolean): string {
  return `${visitId} ${side} ${limb}${byMeasures ? ' measures' : ''}`;
}

/** An end of the cover: a landmark of the ladder's limb in its own words (`ankle crease`), or a distance on it. */
function readEnd(text: string, ladder: { readonly limb: LimbKind; readonly unit: LengthUnit }): Reading<CoverEnd> {
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

/**
 * What a piece covers from its two boxes, or null with a sentence beside the box that stops it; a piece made to named measures alone has none to read.
 *
 * Refuses an end that is no landmark and no distance, and both ends at one place.
 */
export function readCover(
  cut: CutLadder,
  text: (box: 'from' | 'to') => string,
  refuse: (box: 'from' | 'to', reason: string) => null,
): Cover | null {
  const { limb, unit } = cut;
  if (cut.madeTo || limb === 'trunk' || limb === 'head') return 'measures';
  const [from, to] = (['from', 'to'] as const).map((box) => {
    const end = readEnd(text(box), { limb, unit });
    return end.kind === 'read' ? end.value : refuse(box, end.reason);
  }) as [CoverEnd | null, CoverEnd | null];
  if (!from || !to) return null;
  return sameEnd(from, to) ? refuse('to', 'Both ends are the same place.') : { from, to };
}

/** The two boxes of a cover as a form shows them again; empty where it was made to named measures alone. */
export function coverAsTyped(covers: Cover): { readonly from: string; readonly to: string } {
  return covers === 'measures' ? { from: '', to: '' } : { from: endAsTyped(covers.from), to: endAsTyped(covers.to) };
}

/** Whether both ends are one place. */
function sameEnd(one: CoverEnd, other: CoverEnd): boolean {
  return typeof one === 'string' || typeof other === 'string' ? one === other : one.nm === other.nm;
}

/** A reduction in per cent, 0 to 60. Example: `15 %` → 15. */
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

/** Whole days, at least so many. Example: `21`, at least 7 → 21; `6` is refused. */
export function readDays(text: string, least: number): Reading<number> {
  const days = text.trim();
  if (/^\d{1,4}$/.test(days) && Number(days) >= least) return { kind: 'read', value: Number(days) };
  return { kind: 'refused', reason: `Type whole days, ${least} or more.` };
}

/** An end of the cover as a form shows it again. */
function endAsTyped(end: CoverEnd): string {
  return typeof end === 'string' ? placeInWords(end) : lengthAsTyped(end);
}

/** A length as typed, with its unit unless it was typed too, so that it reads back the same in a form of either unit. */
export function lengthAsTyped({ text, unit }: TypedLength): string {
  return /[a-z"″]/i.test(text) ? text : `${text} ${unit}`;
}
