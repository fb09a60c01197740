import type { LengthUnit } from '../units/length';
import { readLength } from '../units/read-length';

/** Whether a cell may be left by Enter: it is empty or reads as one girth. */
export function isGirthRead(text: string, unit: LengthUnit): boolean {
  return text.trim() === '' || readLength(text, unit, true).kind === 'read';
}
