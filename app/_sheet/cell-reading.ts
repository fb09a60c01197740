import type { LengthUnit } from '@/lib/units/length';
import { readLength } from '@/lib/units/read-length';

/** Whether a cell may be left by Enter: it is empty or reads as one girth. */
export function isGirthRead(text: string, unit: LengthUnit): boolean {
  return text.trim() === '' || readLength(text, unit, true).kind === 'read';
}
