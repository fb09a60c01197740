import type { PatientFile } from '../record/patient-file';
import { isPlainText, LONGEST_TEXT } from '../units/plain-text';

/**
 * Why a patient's file is not taken for one of its texts: one that is longer than any form allows, or that holds what is no character;
 * undefined when every text is good. Tables and bundles are read by cells and elements; this asks of them what the sheet asks.
 *
 * Shape: one patient as read; a sentence that names where it stands. Linear in the file.
 * Example: a note of a second visit with `\u0000` gives `visits, 2, note: holds a character that is none.`
 */
export function refusedText(file: PatientFile): string | undefined {
  return inPart(file, []);
}

function inPart(part: unknown, path: readonly string[]): string | undefined {
  if (typeof part === 'string') {
    if (part.length > LONGEST_TEXT) return `${path.join(', ')}: has more than ${LONGEST_TEXT} characters.`;
    return isPlainText(part) ? undefined : `${path.join(', ')}: holds a character that is none.`;
  }
  if (typeof part !== 'object' || part === null) return undefined;
  for (const [name, inner] of Object.entries(part)) {
    const refused = inPart(inner, [...path, Array.isArray(part) ? String(Number(name) + 1) : name]);
    if (refused) return refused;
  }
  return undefined;
}
