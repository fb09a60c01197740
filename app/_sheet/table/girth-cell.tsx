import type { KeyboardEvent } from 'react';
import type { CellPlace } from '@/lib/entry/entry-state';
import { placeInWords } from '@/lib/ladder/limb';
import type { LengthUnit } from '@/lib/units/length';
import { nameOf } from '@/lib/units/read-length';
import { showLength } from '@/lib/units/show-length';
import type { SheetRow } from '@/lib/visit-form/entry-rows';
import styles from './ladder-table.module.css';

/** What the sheet does when somebody types in a cell, moves there, leaves it, presses a key or pastes. */
export type CellHands = {
  readonly onType: (place: CellPlace, text: string) => void;
  readonly onFocus: (place: CellPlace) => void;
  readonly onBlur: () => void;
  readonly onKey: (event: KeyboardEvent<HTMLInputElement>, place: CellPlace) => void;
  readonly onPasteText: (text: string, place: CellPlace) => boolean;
};

type CellProps = CellHands & {
  readonly place: CellPlace;
  readonly label: string;
  readonly text: string;
  readonly look: 'waiting' | 'typed' | 'asked' | 'refused';
  readonly describedBy: string;
};

/** The id of a cell's box, by which it is focused from anywhere. */
export function cellId({ group, side, row, again }: CellPlace): string {
  return `girth-${group}-${side}-${row}${again ? '-again' : ''}`;
}

/** One box for one girth: a native text box with a number pad, named in words. */
export function GirthCell({ place, label, text, look, describedBy, onType, onFocus, onBlur, onKey, onPasteText }: CellProps) {
  return (
    <input
      id={cellId(place)}
      className={styles.girthCell}
      data-look={look}
      type="text"
      inputMode="decimal"
      enterKeyHint="next"
      autoComplete="off"
      autoCorrect="off"
      spellCheck={false}
      maxLength={60}
      aria-label={label}
      aria-describedby={describedBy}
      aria-invalid={look === 'refused'}
      value={text}
      onChange={(event) => onType(place, event.target.value)}
      onFocus={() => onFocus(place)}
      onBlur={onBlur}
      onKeyDown={(event) => onKey(event, place)}
      onPaste={(event) => {
        if (onPasteText(event.clipboardData.getData('text'), place)) event.preventDefault();
      }}
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
