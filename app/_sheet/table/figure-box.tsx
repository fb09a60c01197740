import type { KeyboardEvent } from 'react';
import styles from './ladder-table.module.css';

/** How a box stands: empty, read, asked about, or not to be read. */
export type FigureLook = 'waiting' | 'typed' | 'asked' | 'refused';

/** Characters a figure may have as typed; the reader of lengths asks the same. */
const LONGEST_FIGURE = 60;

type Props = {
  readonly id?: string;
  readonly label: string;
  readonly text: string;
  readonly look: FigureLook;
  readonly describedBy?: string;
  /** Enter goes on to another box. */
  readonly goesOn?: boolean;
  readonly onType: (text: string) => void;
  readonly onFocus?: () => void;
  readonly onBlur: () => void;
  readonly onKey?: (event: KeyboardEvent<HTMLInputElement>) => void;
  /** Whether a pasted text is taken by the sheet. */
  readonly onPasteText: (text: string) => boolean;
};

/** One box for one figure of the tape: a native text box with a number pad, named in words. */
export function FigureBox({ id, label, text, look, describedBy, goesOn = true, onType, onFocus, onBlur, onKey, onPasteText }: Props) {
  return (
    <input
      id={id}
      className={styles.girthCell}
      data-look={look}
      type="text"
      inputMode="decimal"
      enterKeyHint={goesOn ? 'next' : undefined}
      autoComplete="off"
      autoCorrect="off"
      spellCheck={false}
      maxLength={LONGEST_FIGURE}
      aria-label={label}
      aria-describedby={describedBy}
      aria-invalid={look === 'refused'}
      value={text}
      onChange={(event) => onType(event.target.value)}
      onFocus={onFocus}
      onBlur={onBlur}
      onKeyDown={onKey}
      onPaste={(event) => {
        if (onPasteText(event.clipboardData.getData('text'))) event.preventDefault();
      }}
    />
  );
}
