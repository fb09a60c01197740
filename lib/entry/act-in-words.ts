import type { Doubt } from '../ladder/doubt';
import type { LengthUnit } from '../units/length';
import { readLength } from '../units/read-length';
import { showLength, showLengthWithUnit } from '../units/show-length';

const NUMBERS = 'no,one,two,three,four,five,six,seven,eight,nine,ten,eleven,twelve'.split(',');

/** A count and its noun in a sentence: `five rungs`, `one rung`, `24 rungs`. */
export function counted(count: number, noun: string): string {
  return `${NUMBERS[count] ?? count} ${noun}${count === 1 ? '' : 's'}`;
}

/** Keeping a question, as it stands after "Undo:". Example: `keep 21⅛ at 10½ in`, `keep all as measured`. */
export function keepInWords({ distanceMm, kind }: Doubt, text: string, unit: LengthUnit): string {
  if (distanceMm === null || kind === 'shifted-rungs' || kind === 'swapped-neighbours') return 'keep all as measured';
  return `keep ${figure(text, unit)} at ${showLengthWithUnit(distanceMm, unit, 16)}`;
}

/** Another figure in a box, as it stands after "Undo:". Example: `21⅛ at 10½ in becomes 12⅛`. */
export function changeInWords(from: string, to: string, distanceMm: number | null, unit: LengthUnit): string {
  const place = distanceMm === null ? '' : ` at ${showLengthWithUnit(distanceMm, unit, 16)}`;
  return `change ${figure(from, unit)}${place} to ${figure(to, unit)}`;
}

/** A typed figure as it was read; as typed where it cannot be. */
function figure(text: string, unit: LengthUnit): string {
  const reading = readLength(text, unit, true);
  return reading.kind === 'read' ? showLength(reading.value.nm / 1e6, unit, 16) : text;
}
