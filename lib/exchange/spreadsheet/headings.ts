import type { Role } from './mapping';
import { isPlaceHeading, sideIn } from './place-label';
import { withoutUnit } from './unit-in-text';

/** Headings people give to columns that are no places. Source: common practice. */
const HEADINGS: Readonly<Partial<Record<Role, readonly string[]>>> = {
  reference: ['patient', 'reference', 'ref', 'id', 'patient id', 'patient no', 'mrn', 'subject', 'row'],
  born: ['born', 'dob', 'date of birth', 'birth date', 'birthdate', 'birthday'],
  sex: ['sex', 'gender', 'm/f', 'f/m'],
  day: ['day', 'date', 'visit', 'visit date', 'date of visit', 'measured on'],
  time: ['time', 'hour'],
  limb: ['limb'],
  side: ['side', 'l/r', 'r/l', 'leg', 'arm'],
  height: ['height', 'stature', 'body height'],
  weight: ['weight', 'body weight'],
  posture: ['posture', 'position'],
  measurer: ['measurer', 'measured by', 'taped by', 'therapist'],
  note: ['note', 'notes', 'remark', 'remarks', 'comment', 'comments'],
  distance: ['distance', 'dist', 'distance from zero', 'level', 'from zero'],
  girth: ['girth', 'circumference', 'circ', 'girth measured'],
  unit: ['unit', 'units'],
  landmark: ['landmark', 'mark'],
};

/** Headings of the side column of a chart. */
const PLACES = ['place', 'places', 'point', 'points', 'site', 'distance', 'level', 'cm', 'in', 'inches'];

/** What the heading of a column says it holds; undefined for a place, a day or anything else. */
export function roleOfHeading(cell: string): Role | undefined {
  const words = plain(cell);
  return (Object.keys(HEADINGS) as Role[]).find((one) => HEADINGS[one]?.includes(withoutUnit(words)));
}

/** Whether a heading is a word that tables begin their columns with. */
export function isHeadingWord(cell: string): boolean {
  return roleOfHeading(cell) !== undefined || PLACES.includes(withoutUnit(plain(cell))) || PLACES.includes(plain(cell));
}

/** What each column of a table with its headings in the first row holds, as far as the headings say. */
export function rolesOfTable(header: readonly string[]): readonly Role[] {
  return header.map((cell): Role => roleOfHeading(cell) ?? (isPlaceHeading(sideIn(cell).rest) ? 'place' : 'ignore'));
}

function plain(cell: string): string {
  return cell
    .toLowerCase()
    .replace(/[_:]+/g, ' ')
    .replace(/\.(?=\s|$)/g, '')
    .trim();
}
