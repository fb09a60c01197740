import { isLandmarkOf, type LandmarkId, LIMBS, type LimbKind } from '../ladder/limb';
import { readLength } from '../units/read-length';
import { readClockTime } from './clock-time';
import type { CsvRow } from './csv-table';
import { accepted, filledCell, refuseCell } from './read-cells';

/** Columns of a ladders file, one row a taped place, a landmark, or a note on a place. */
export const LADDER_COLUMNS = [
  'patient',
  'born',
  'sex',
  'day',
  'time',
  'posture',
  'measurer',
  'height',
  'weight',
  'limb',
  'side',
  'affected',
  'zero',
  'distance',
  'girth',
  'unit',
  'landmark',
  'note',
] as const;

/** Columns that hold words: one that a spreadsheet could take for a formula carries an apostrophe before it (`set/defused`). */
export const LADDER_WORDS: readonly string[] = ['patient', 'posture', 'measurer', 'zero', 'note'];

const EVERY_LANDMARK = Object.values(LIMBS).flatMap((limb) => limb.landmarks as readonly string[]);

/** The zero of a row: a landmark of the limb, or a place in words that is no misspelt landmark. */
export function zeroCell(row: CsvRow, limb: LimbKind): string {
  const text = filledCell(row, 'zero');
  if (isLandmarkOf(limb, text)) return text;
  if (EVERY_LANDMARK.includes(text)) refuseCell(row, 'zero', `The ${text} is not on ${limb === 'leg' ? 'a leg' : 'an arm'}.`);
  const meant = EVERY_LANDMARK.find((landmark) => landmark.replace('-', '') === text.toLowerCase().replace(/[^a-z]/g, ''));
  if (meant) refuseCell(row, 'zero', `“${text}” is written ${meant}.`);
  const isFigure = readLength(text, 'cm').kind === 'read' || readLength(text, 'in').kind === 'read';
  if (isFigure || !/\p{L}/u.test(text))
    refuseCell(row, 'zero', `“${text}” is no place. Name a landmark (${LIMBS[limb].landmarks.join(', ')}) or a place in words.`);
  return text;
}

/** The landmark that a row names; undefined where it names none. */
export function landmarkCell(row: CsvRow, limb: LimbKind): LandmarkId | undefined {
  const text = row.cell('landmark');
  if (text === '') return undefined;
  if (!isLandmarkOf(limb, text))
    return refuseCell(row, 'landmark', `“${text}” is not a landmark of the ${limb}: ${LIMBS[limb].landmarks.join(', ')}.`);
  return text;
}

/** The clock time of a row; null where none was written. */
export function timeCell(row: CsvRow): string | null {
  const text = row.cell('time');
  if (text === '') return null;
  return accepted(row, 'time', readClockTime(text));
}
