import { optionalText, orNull } from '../forms/optional-text';
import type { Ladder, LandmarkReading, Rung } from '../ladder/ladder';
import { limbInWords, placeInWords, type Side } from '../ladder/limb';
import { landmarkOutOfOrder } from '../ladder/zero-and-direction';
import type { TypedLength } from '../units/length';
import { readLength } from '../units/read-length';
import { endLandmark, readPlace, type SheetRow, sheetRows, typedLandmarks } from './entry-rows';
import { cellKey, type GirthCell, type LimbSheet, markKey } from './visit-form';

/** A ladder as read from a sheet, with its interval as typed. */
export type ReadLadder = Ladder & { readonly intervalText: string | null };

/** Why a text cannot be saved, and which box it stands in: `height`, `0/right/end`, `0/right/knee`, `0/interval`. */
export type FormRefusal = { readonly where: string; readonly reason: string };

/**
 * One side of a sheet as a ladder, with the boxes that could not be read. Usable while typing: what cannot be read is left out.
 *
 * A row without a girth is left out, unless it carries a note.
 */
export function readSheetSide(sheet: LimbSheet, side: Side): { readonly ladder: ReadLadder; readonly refusals: readonly FormRefusal[] } {
  const refusals: FormRefusal[] = [];
  const interval = sheet.interval.trim() === '' ? undefined : readLength(sheet.interval, sheet.unit, true);
  if (interval && interval.kind !== 'read') refusals.push({ where: 'interval', reason: interval.reason });
  for (const extra of sheet.extras) {
    if (!readPlace(extra.place, sheet))
      refusals.push({
        where: 'place',
        reason: `The place “${extra.place}” cannot be read.`,
      });
  }
  const landmarks: LandmarkReading[] = [];
  for (const landmark of typedLandmarks(sheet)) {
    const distance = readMark(sheet, side, landmark, refusals);
    if (distance) landmarks.push({ landmark, distance });
  }
  const floorToFold = sheet.limb === 'leg' ? readMark(sheet, side, 'floor', refusals) : null;
  const rungs = sheetRows(sheet).flatMap((row) => readRung(sheet, side, row, refusals));
  const { limb, zero, direction, unit } = sheet;
  const intervalText = orNull(sheet.interval);
  const ladder: ReadLadder = { limb, side, zero, direction, unit, intervalText, rungs, landmarks, floorToFold };
  const wrong = landmarkOutOfOrder(ladder);
  if (wrong) refusals.push({ where: markKey(sheet.apart ? side : (sheet.sides[0] ?? side), wrong.landmark), reason: wrong.reason });
  return { ladder, refusals };
}

function readMark(sheet: LimbSheet, side: Side, mark: LandmarkReading['landmark'] | 'floor', refusals: FormRefusal[]): TypedLength | null {
  const where = markKey(sheet.apart ? side : (sheet.sides[0] ?? side), mark);
  return optionalText(
    sheet.marks[markKey(side, mark)] ?? '',
    (text) => readLength(text, sheet.unit, true),
    (reason) => refusals.push({ where, reason }),
  );
}

function readRung(sheet: LimbSheet, side: Side, row: SheetRow, refusals: FormRefusal[]): Rung[] {
  const key = cellKey(side, row.key);
  const cell = sheet.cells[key];
  if (!cell) return [];
  const girth = readGirth(cell.text, sheet, key, refusals);
  const second = readGirth(cell.again ?? '', sheet, `${key}/again`, refusals);
  if (!girth && second)
    refusals.push({
      where: key,
      reason: 'It is measured again and the first measuring is empty. Type the first one too.',
    });
  const distance = row.at[side];
  if (!distance) {
    const mark = placeInWords(endLandmark(sheet));
    refusals.push({
      where: markKey(side, endLandmark(sheet)),
      reason: `Type where the ${mark} of the ${limbInWords(sheet.limb, side)} is.`,
    });
    return [];
  }
  return girth || cell.note ? [rungOf(distance, girth, second, cell, row.name)] : [];
}

function rungOf(distance: TypedLength, girth: TypedLength | null, again: TypedLength | null, cell: GirthCell, name: string): Rung {
  const note = cell.note ?? (name !== '' ? name : undefined);
  return {
    distance,
    girth,
    ...(again ? { again } : {}),
    ...(note ? { note } : {}),
    ...(cell.kept && cell.kept.length > 0 ? { kept: cell.kept } : {}),
  };
}

function readGirth(text: string, sheet: LimbSheet, where: string, refusals: FormRefusal[]): TypedLength | null {
  return optionalText(
    text,
    (typed) => readLength(typed, sheet.unit, true),
    (reason) => refusals.push({ where, reason }),
  );
}
