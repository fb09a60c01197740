import type { KeyboardEvent } from 'react';
import type { CellPlace } from '@/lib/entry/entry-state';
import { placeInWords } from '@/lib/ladder/limb';
import type { LengthUnit } from '@/lib/units/length';
import { nameOf } from '@/lib/units/read-length';
import { showLength } from '@/lib/units/show-length';
import type { SheetRow } from '@/lib/visit-form/entry-rows';
import { FigureBox, type FigureLook } from './figure-box';

/** What the sheet does when somebody types in a cell, moves there, leaves it, presses a key or pastes. */
export type CellHandlers = {
  readonly onType: (place: CellPlace, text: string) => void;
  readonly onFocus: (place: CellPlace) => void;
  readonly onBlur: () => void;
  readonly onKey: (event: KeyboardEvent<HTMLInputElement>, place: CellPlace) => void;
  readonly onPasteText: (text: string, place: CellPlace) => boolean;
};

type CellProps = CellHandlers & {
  readonly place: CellPlace;
  readonly label: string;
  readonly text: string;
  readonly look: FigureLook;
  readonly describedBy: string;
};

/** The id of a cell's box, by which it is focused from anywhere. */
export function cellId({ group, side, row, again }: CellPlace): string {
  return `girth-${group}-${side}-${row}${again ? '-again' : ''}`;
}

/** One box for one girth, known to the sheet by its place. */
export function GirthCell({ place, onType, onFocus, onKey, onPasteText, ...box }: CellProps) {
  return (
    <FigureBox
      {...box}
      id={cellId(place)}
      onType={(text) => onType(place, text)}
      onFocus={() => onFocus(place)}
      onKey={(event) => onKey(event, place)}
      onPasteText={(text) => onPasteText(text, place)}
    />
  );
}

/** `Right leg, girth at 13½ inches`, `Left leg, girth at 23⅜ inches, gluteal fold, measured again` */
export function cellLabel(limb: string, place: CellPlace, row: SheetRow, unit: LengthUnit): string {
  const at = row.at[place.side];
  const side = place.side === 'left' ? 'Left' : 'Right';
  const where = at ? `${showLength(at.nm / 1e6, unit, 16)} ${nameOf(unit)}` : 'the end';
  return `${side} ${limb}, girth at ${where}${row.name ? `, ${placeInWords(row.name)}` : ''}${place.again ? ', measured again' : ''}`;
}
