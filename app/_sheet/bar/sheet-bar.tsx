import clsx from 'clsx';
import { type ReactNode, type RefObject, useState } from 'react';
import type { DraftStands } from '@/app/_draft/use-draft';
import type { SheetData } from '@/lib/entry/entry-data';
import { type CellPlace, redoable, type SheetState, undoable } from '@/lib/entry/entry-state';
import type { LengthUnit } from '@/lib/units/length';
import { SaveLine } from './save-line';
import styles from './sheet-bar.module.css';
import { ThumbKeys } from './thumb-keys';

type BarProps = {
  readonly data: SheetData;
  readonly state: SheetState;
  readonly unit: LengthUnit;
  readonly draft: Omit<DraftStands, 'keeper'>;
  readonly waiting: number;
  readonly total: number;
  readonly places: number;
  readonly open: number;
  readonly notes: readonly string[];
  readonly twice: boolean;
  readonly busy: boolean;
  readonly finishWords: string;
  readonly finishButton: RefObject<HTMLButtonElement | null>;
  readonly onType: (place: CellPlace, text: string) => void;
  readonly onNext: (place: CellPlace) => void;
  /** What stands above the line: the end of a limb, the choice between two drafts. */
  readonly children: ReactNode;
  readonly onUndo: () => void;
  readonly onRedo: () => void;
  readonly onTwice: () => void;
  readonly onPaste: () => void;
  readonly onReadBack: () => void;
  readonly onFinish: () => void;
};

/** The bar that stays at the foot of the window: how the draft stands, what else the sheet can do, and the way to finish. */
export function SheetBar(props: BarProps) {
  const { data, state, draft, total, places, open, notes, finishWords, busy } = props;
  const [more, setMore] = useState(false);
  const [undo, redo] = [undoable(state), redoable(state)];
  const questions = `${open} question${open === 1 ? '' : 's'}`;
  const counts = `${total} of ${places} girths${open === 0 ? '' : `, ${questions}`}`;
  const signIn = `/sign-in?to=${encodeURIComponent(`/patients/${data.patientId}`)}`;
  const then = (deed: () => void) => () => {
    setMore(false);
    deed();
  };
  return (
    <div className={styles.sheetBar}>
      <ThumbKeys unit={props.unit} place={state.editing?.place ?? null} form={state.form} onType={props.onType} onNext={props.onNext} />
      {props.children}
      {notes.length > 0 && (
        <p className={styles.finishNote} role="alert">
          {notes.join(' ')} Press {finishWords} again to leave it so.
        </p>
      )}
      <div className={styles.sheetBarRow}>
        <SaveLine
          state={draft.state}
          waiting={props.waiting}
          isOnDevice={draft.isOnDevice}
          broughtBack={draft.broughtBack}
          counts={counts}
          short={open === 0 ? `${total} of ${places}` : `${questions} open`}
        />
        {draft.state.kind === 'unsaved' && draft.state.why === 'signed-out' && (
          <a className="button" href={signIn} target="_blank" rel="noreferrer">
            Sign in again
          </a>
        )}
        {(undo || redo) && (
          <div className={styles.acts}>
            {undo && (
              <button className="button" type="button" onClick={props.onUndo}>
                Undo: {undo.words}
              </button>
            )}
            {redo && (
              <button className="button" type="button" onClick={props.onRedo}>
                Redo: {redo.words}
              </button>
            )}
          </div>
        )}
        <div className={clsx(styles.more, more && styles.open)}>
          <button className={`button ${styles.moreButton}`} type="button" aria-expanded={more} onClick={() => setMore(!more)}>
            More
          </button>
          <div className={styles.moreItems}>
            <button className="button" type="button" onClick={then(props.onPaste)}>
              Paste a column
            </button>
            <button className="button" type="button" aria-pressed={props.twice} onClick={then(props.onTwice)}>
              Measure again
            </button>
            <button className="button" type="button" onClick={then(props.onReadBack)}>
              Read back
            </button>
          </div>
        </div>
        <button className="button main" type="button" ref={props.finishButton} aria-disabled={busy} onClick={props.onFinish}>
          {busy ? 'Saving…' : finishWords}
        </button>
      </div>
    </div>
  );
}
